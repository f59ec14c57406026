package dev.pawl.engine;

/**
 * How near the single obligations of a rule came, as shares of what the rule allows. An obligation counts by its
 * smallest margin, and one that has none (it was cancelled, or is unknown) not at all; so does a stretch in which an
 * {@code always} applies.
 *
 * @param allowed the time for a response, or the number compared with, in the margins' unit; more than 0
 * @param missed margins below 0
 * @param belowTenth others below a tenth of what is allowed
 * @param belowQuarter others below a quarter
 * @param belowHalf others below a half
 * @param more all others
 */
public record MarginSpread(double allowed, long missed, long belowTenth, long belowQuarter, long belowHalf, long more) {

  /** All that were counted. */
  public long total() {
    return missed + belowTenth + belowQuarter + belowHalf + more;
  }

  /** Those of two traces together. */
  public MarginSpread plus(MarginSpread other) {
    return new MarginSpread(allowed, missed + other.missed, belowTenth + other.belowTenth, belowQuarter
        + other.belowQuarter, belowHalf + other.belowHalf, more + other.more);
  }

  /** The same where what is allowed is said in another unit. */
  public MarginSpread allowing(double other) {
    return new MarginSpread(other, missed, belowTenth, belowQuarter, belowHalf, more);
  }
}
