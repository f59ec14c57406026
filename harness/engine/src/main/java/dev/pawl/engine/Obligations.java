package dev.pawl.engine;

/**
 * How the obligations of one rule in one trace ended.
 *
 * @param met met
 * @param missed not met
 * @param open still waiting when the trace ended
 * @param borderline met or missed by less than the resolution or the tolerance
 * @param unknown not decidable because a value was unknown
 * @param cancelled cancelled by the rule's {@code unless}
 * @param unknownTriggers times at which the trigger itself was unknown, so that no obligation could be raised
 */
public record Obligations(long met, long missed, long open, long borderline, long unknown, long cancelled, long unknownTriggers) {

  /** Obligations that arose, the cancelled ones included. */
  public long arisen() {
    return met + missed + open + borderline + unknown + cancelled;
  }

  /** The verdict that these counts amount to. A cancelled obligation exercises nothing. */
  public Verdict verdict() {
    if (missed > 0) {
      return Verdict.BROKEN;
    }
    if (open + borderline + unknown > 0) {
      return Verdict.UNDECIDED;
    }
    return met > 0 ? Verdict.HELD : Verdict.NOT_EXERCISED;
  }
}
