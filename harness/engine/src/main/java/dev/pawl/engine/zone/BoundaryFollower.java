package dev.pawl.engine.zone;

/** One end of a zone: turns what its flags do into trains that come in and go out there. */
abstract sealed class BoundaryFollower permits EdgeFollower, PairFollower {

  /** What the end saw at one moment. */
  enum Step {
    NOTHING,
    /** A train came in. */
    IN,
    /** A train went out. */
    OUT,
    POSSIBLY_IN,
    POSSIBLY_OUT,
    /** The flags changed as no train can make them. */
    IMPOSSIBLE,
    /** A flag is unknown. */
    LOST
  }

  /** Follows the flags at the moment being evaluated. */
  abstract Step follow(long moment);
}
