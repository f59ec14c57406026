package dev.pawl.engine;

/**
 * How near the single obligations of a rule came that met it, as shares of what the rule allows. An obligation counts
 * by its smallest margin, where it has one that is not below 0; so does a stretch in which an {@code always} applies.
 * What is missed is counted by {@link Obligations}, since not all of that has a margin.
 *
 * @param allowed the time for a response, or the number compared with, in the margins' unit; more than 0
 * @param belowTenth margins below a tenth of what is allowed
 * @param belowQuarter others below a quarter
 * @param belowHalf others below a half
 * @param more all others
 */
public record MarginSpread(double allowed, long belowTenth, long belowQuarter, long belowHalf, long more) {

  /** All that were counted. */
  public long total() {
    return belowTenth + belowQuarter + belowHalf + more;
  }

  /** Those of two traces together. */
  public MarginSpread plus(MarginSpread other) {
    return new MarginSpread(allowed, belowTenth + other.belowTenth, belowQuarter + other.belowQuarter,
        belowHalf + other.belowHalf, more + other.more);
  }

  /** The same where what is allowed is said in another unit. */
  public MarginSpread allowing(double other) {
    return new MarginSpread(other, belowTenth, belowQuarter, belowHalf, more);
  }
}
