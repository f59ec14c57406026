package dev.pawl.engine.reference;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.grammar.rules.model.Truth;

/**
 * How near to what breaks an obligation the order of {@code unless} is open: less than {@code before} moments before
 * it, less than {@code after} after it.
 */
record Sparing(long before, long after, boolean sampled) {

  static final Sparing EXACT = new Sparing(0, 0, false);

  static Sparing of(long before, long after, boolean sampled) {
    return new Sparing(Math.max(before, sampled ? 1 : 0), Math.max(after, sampled ? 1 : 0), sampled);
  }

  boolean isExact() {
    return before == 0 && after == 0;
  }

  /** What becomes of an obligation that would end so, if {@code unless} was first true at a moment. */
  Ruling applyTo(int m0, Ruling ruling, long rise) {
    long place = switch (ruling.ending()) {
      case OPEN -> ruling.deadline();
      case MISSED -> ruling.place();
      case MET, ALREADY_SO, CANCELLED -> ruling.decided();
      case BORDERLINE, UNKNOWN -> ruling.deadline() > m0 ? Math.min(ruling.decided(), ruling.deadline())
          : ruling.decided();
    };
    boolean image = rise == place && rise > m0 + 1L && !sampled && (ruling.kind() == Kind.NOT_THROUGHOUT
        || ruling.kind() == Kind.NOT_SUSTAINED || ruling.kind() == Kind.OUT_OF_ORDER);
    return switch (ruling.ending()) {
      case MET, ALREADY_SO -> rise <= ruling.decided() ? Ruling.cancelled(rise) : ruling;
      case MISSED -> isBefore(rise, place, ruling) || image ? Ruling.cancelled(rise)
          : rise < place + after ? ruling.doubtedBy(Truth.BORDERLINE) : ruling;
      case OPEN, BORDERLINE, UNKNOWN -> isBefore(rise, place, ruling) ? Ruling.cancelled(rise) : ruling;
      case CANCELLED -> ruling;
    };
  }

  private boolean isBefore(long rise, long place, Ruling ruling) {
    return rise <= place - before && rise <= ruling.decided();
  }
}
