package dev.pawl.report.picture;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.Arrays;
import java.util.List;

/** Whether zones are occupied, by the counts of the engine's own zones: what is drawn is what the verdicts rest on. */
final class ZoneOccupancy {

  private static final long NOT_TOLD = Long.MIN_VALUE;

  private final Listener listener;
  private final RuleEngine zones;
  private final long[] told;
  private long now = Long.MIN_VALUE;

  /**
   * A course that has not begun.
   *
   * @param wanted the zones whose occupancy is wanted
   */
  ZoneOccupancy(RuleBook book, List<Zone> wanted, Listener listener) {
    this.listener = listener;
    told = new long[book.zones().size()];
    Arrays.fill(told, NOT_TOLD);
    zones = RuleEngine.counting(book, wanted, this::counted);
  }

  /** Is told of each change as soon as its instant is over. */
  interface Listener {

    /**
     * A zone's occupancy changed.
     *
     * @param time nanoseconds
     * @param zone its index in the rule book
     * @param value 0, 1 or {@link EventSink#UNKNOWN}
     */
    void occupancy(long time, int zone, long value);
  }

  private void counted(long time, int zone, int least, int most) {
    long value = least > 0 ? 1 : most == 0 ? 0 : EventSink.UNKNOWN;
    if (told[zone] != value) {
      told[zone] = value;
      listener.occupancy(time, zone, value);
    }
  }

  /** Takes an event. What it changes is told once a later time is reached. */
  void event(long time, int signal, long value, long line) {
    if (zones.needs(signal)) {
      zones.event(time, signal, value, line);
      now = time;
    }
  }

  /** Tells all changes before a time; one that is not later than what came before changes nothing. */
  void advanceTo(long time) {
    if (time > now) {
      zones.advanceTo(time);
      now = time;
    }
  }

  /** Tells the changes at the last instant too. */
  void finish() {
    if (now != Long.MIN_VALUE) {
      zones.finish();
    }
  }
}
