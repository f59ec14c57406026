package dev.pawl.engine.reference;

import static dev.pawl.engine.reference.Search.NEVER;

import dev.pawl.grammar.rules.model.Truth;

/**
 * What came first in the window after one trigger.
 *
 * @param early from here on it may have been in the window
 * @param deadline the last moment of the window
 * @param seen the moment from which on it is known that it came
 * @param began when it began to be so, not before the trigger
 * @param at when it came: at the opening where it was so before
 */
record Opening(long early, long deadline, long seen, long began, long at) {

  /**
   * The first time that something is so in a window of {@code length} that opens {@code after} moments after m0;
   * {@code surely} is m0*.
   */
  static Opening of(Truth[] table, Truth value, int m0, long after, long length, Slack slack, long surely) {
    long opened = m0 + after;
    long early = after == 0 ? opened : Math.max(m0, opened - slack.longer());
    long sure = after == 0 ? surely : Slack.closes(opened, slack.shorter());
    long seen = Search.first(table, value, sure);
    long began = seen;
    while (began < NEVER && began > m0 && table[(int) began - 1] == value) {
      began--;
    }
    return new Opening(early, opened + length, seen, began, Math.max(opened, began));
  }

  boolean isInTime(Slack slack) {
    return began <= deadline - slack.longer();
  }

  /** Whether it came in time, or so near to the deadline that it may have. */
  boolean isInTimeOrNear(Slack slack) {
    return began <= Slack.closes(deadline, slack.shorter());
  }

  /**
   * The last moment from {@code early} on, before it came, at which something else near the opening was so;
   * {@link Search#NEVER} for none.
   */
  long nearOpening(Truth[] table, Truth value, long until) {
    for (long m = Math.min(until, table.length - 1L); m >= early; m--) {
      if (table[(int) m] == value) {
        return m;
      }
    }
    return NEVER;
  }
}
