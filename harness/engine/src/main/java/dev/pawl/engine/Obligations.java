package dev.pawl.engine;

import java.util.List;

/**
 * How the obligations of one rule in one trace ended.
 *
 * @param met met
 * @param missed not met
 * @param open still waiting when the trace ended
 * @param borderline met or missed by less than the resolution or the tolerance
 * @param unknown not decidable because a value was unknown
 * @param cancelled cancelled by the rule's {@code unless}
 * @param unknownTriggers stretches of time in which the trigger may have happened, and from some moment of which not
 *     all was surely met
 * @param miscounted met on a count of trains that was found wrong; and for each finding one more where trigger or
 *     scopes rest on that count
 * @param alreadySo those whose demand was so before the trigger already, as far as it was known, so that they show
 *     nothing
 */
public record Obligations(long met, long missed, long open, long borderline, long unknown, long cancelled,
    long unknownTriggers, long miscounted, long alreadySo) {

  /** None of them was so already. */
  public Obligations(long met, long missed, long open, long borderline, long unknown, long cancelled,
      long unknownTriggers) {
    this(met, missed, open, borderline, unknown, cancelled, unknownTriggers, 0, 0);
  }

  /** None of them rested on a count that was found wrong. */
  public Obligations(long met, long missed, long open, long borderline, long unknown, long cancelled,
      long unknownTriggers, long alreadySo) {
    this(met, missed, open, borderline, unknown, cancelled, unknownTriggers, 0, alreadySo);
  }

  /** How many obligations, and possible triggers, were left undecided. */
  public long undecided() {
    return open + borderline + unknown + unknownTriggers + miscounted;
  }

  /** Obligations that arose, the cancelled ones included. */
  public long arisen() {
    return met + missed + open + borderline + unknown + cancelled + alreadySo;
  }

  /**
   * The verdict that these counts amount to for a rule that states no trial. One that was cancelled, or was so already,
   * exercises nothing.
   */
  public Verdict verdict() {
    if (missed > 0) {
      return Verdict.BROKEN;
    }
    if (undecided() > 0) {
      return Verdict.UNDECIDED;
    }
    return met > 0 ? Verdict.HELD : Verdict.NOT_EXERCISED;
  }

  /**
   * The verdict for a rule that states trials, if any: it is held only where each of them occurred, and then even if no
   * obligation arose.
   */
  public Verdict verdict(List<Tried> trials) {
    Verdict counted = verdict();
    if (trials.isEmpty() || counted == Verdict.BROKEN || counted == Verdict.UNDECIDED) {
      return counted;
    }
    return trials.stream().allMatch(trial -> trial.times() > 0) ? Verdict.HELD : Verdict.NOT_EXERCISED;
  }
}
