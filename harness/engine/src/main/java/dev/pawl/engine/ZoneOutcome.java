package dev.pawl.engine;

/**
 * What one trace says about one zone.
 *
 * @param zone index of the zone
 * @param entered trains counted in
 * @param left trains counted out
 * @param findings counts that could not be right
 * @param least fewest trains that can be in it at the end
 * @param most most trains that can be in it at the end
 * @param start whether its stated number of trains at the start counted
 */
public record ZoneOutcome(int zone, long entered, long left, long findings, int least, int most, Start start) {

  /** What became of the number of trains that rules state for the start. */
  public enum Start {
    NOT_STATED,
    AS_STATED,
    /** Not used: its flags were not all seen soon enough, or one of them changed before. */
    DOUBTFUL
  }
}
