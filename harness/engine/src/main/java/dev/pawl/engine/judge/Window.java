package dev.pawl.engine.judge;

import dev.pawl.engine.graph.Moments;

/**
 * The window after a trigger, in moments.
 *
 * @param opens from the trigger to the opening
 * @param length from the opening to the deadline
 * @param slack how far off the times are
 * @param order how near the trigger the order is open, where the window opens at it
 */
public record Window(long opens, long length, Slack slack, Order order) {

  /** The trigger instant alone. */
  public static Window atTrigger(Order order) {
    return new Window(0, 0, Slack.NONE, order);
  }

  /** The same window of a trigger that only possibly happens. */
  Window ofPossible() {
    return new Window(opens, length, slack, order.ofPossible());
  }

  /** From the trigger up to where what is so may be so in the window. */
  long mayOpen() {
    return opens == 0 ? 0 : Math.max(opens - slack.longer(), 0);
  }

  /** From the trigger up to where what is so was surely not so before the window only. */
  long surelyOpens() {
    return opens == 0 ? order.surely() : Slack.closes(opens, slack.shorter());
  }

  /** Whether it is not certain when it opens. */
  boolean opensVaguely() {
    return mayOpen() != surelyOpens();
  }

  /** From the trigger up to the last moment at which what comes may be in time. */
  long closes() {
    return Math.max(Slack.closes(Moments.later(opens, length), slack.shorter()), surelyOpens());
  }
}
