package dev.pawl.engine.judge;

import dev.pawl.engine.graph.Moments;

/**
 * How far what was seen can be from what was, in moments; less than this.
 *
 * @param longer how much longer the time from a trigger to its response may have been
 * @param shorter how much shorter
 */
public record Slack(long longer, long shorter) {

  /** Times are exact. */
  public static final Slack NONE = new Slack(0, 0);

  /** How far off the time between two changes can be of which neither is the trigger. */
  public long apart() {
    return Math.max(longer, shorter);
  }

  /** The last moment at which something can be near another. */
  static long closes(long moment, long slack) {
    return Moments.later(moment, Math.max(slack - 1, 0));
  }
}
