package dev.pawl.engine.judge;

import dev.pawl.engine.Obligations;

/** How the obligations of one rule have ended so far. */
final class Tally {

  long met;
  long missed;
  long open;
  long borderline;
  long unknown;
  long cancelled;
  long unknownTriggers;
  long miscounted;
  long alreadySo;
  /** Nanoseconds in which an {@code always} applied. */
  long watched;

  Obligations obligations() {
    return new Obligations(met, missed, open, borderline, unknown, cancelled, unknownTriggers, miscounted, alreadySo);
  }
}
