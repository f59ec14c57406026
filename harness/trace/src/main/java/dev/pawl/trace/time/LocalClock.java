package dev.pawl.trace.time;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.List;

/**
 * Local times of a zone as times in UTC. It keeps the stretch of local time around the last one within which the offset
 * is the same, so that most times cost a comparison.
 */
final class LocalClock {

  private final ZoneId zone;
  private final ZoneRules rules;
  private final Repeated repeated;
  private long stretchFrom;
  private long stretchTo;
  private long stretchOffset;
  private long earlier;
  private long later;

  /** What is known of a local time. */
  enum Found {
    ONE,
    NONE,
    TWO
  }

  LocalClock(ZoneId zone, Repeated repeated) {
    this.zone = zone;
    this.rules = zone.getRules();
    this.repeated = repeated;
  }

  ZoneId zone() {
    return zone;
  }

  Repeated repeated() {
    return repeated;
  }

  /** Looks a local time up, in seconds of local time from 1970. */
  Found find(long local) {
    if (local >= stretchFrom && local < stretchTo) {
      earlier = local - stretchOffset;
      return Found.ONE;
    }
    LocalDateTime time = LocalDateTime.ofEpochSecond(local, 0, ZoneOffset.UTC);
    List<ZoneOffset> offsets = rules.getValidOffsets(time);
    if (offsets.isEmpty()) {
      return Found.NONE;
    }
    earlier = local - offsets.get(0).getTotalSeconds();
    if (offsets.size() > 1) {
      later = local - offsets.get(1).getTotalSeconds();
      return Found.TWO;
    }
    learn(local, offsets.get(0).getTotalSeconds());
    return Found.ONE;
  }

  /** UTC of the last time found, in seconds; of two the earlier. */
  long earlier() {
    return earlier;
  }

  /** UTC of the last time found, where there are two, the later. */
  long later() {
    return later;
  }

  /** The stretch ends where the clock begins to leave out or to repeat. */
  private void learn(long local, long offset) {
    Instant instant = Instant.ofEpochSecond(local - offset);
    ZoneOffsetTransition before = rules.previousTransition(instant.plusSeconds(1));
    ZoneOffsetTransition after = rules.nextTransition(instant);
    stretchFrom = before == null ? Long.MIN_VALUE : before.getInstant().getEpochSecond()
        + Math.max(before.getOffsetBefore().getTotalSeconds(), before.getOffsetAfter().getTotalSeconds());
    stretchTo = after == null ? Long.MAX_VALUE : after.getInstant().getEpochSecond()
        + Math.min(after.getOffsetBefore().getTotalSeconds(), after.getOffsetAfter().getTotalSeconds());
    stretchOffset = offset;
  }
}
