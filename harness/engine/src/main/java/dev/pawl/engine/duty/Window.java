package dev.pawl.engine.duty;

import dev.pawl.engine.graph.Moments;

/**
 * The window after a trigger, in moments.
 *
 * @param opens from the trigger to the opening
 * @param length from the opening to the deadline
 * @param slack how far off the times are
 */
public record Window(long opens, long length, Slack slack) {

  /** The trigger instant alone. */
  public static final Window AT_TRIGGER = new Window(0, 0, Slack.NONE);

  /** From the trigger up to where what is so may be so in the window. What is in the trigger's image is not off. */
  long mayOpen() {
    return opens == 0 ? 0 : Math.max(opens - slack.longer(), 0);
  }

  /** From the trigger up to where what is so was surely not so before the window only. */
  long surelyOpens() {
    return opens == 0 ? 0 : Slack.closes(opens, slack.shorter());
  }

  /** Whether it is not certain when it opens. */
  boolean opensVaguely() {
    return mayOpen() != surelyOpens();
  }

  /** From the trigger up to the last moment at which what comes may be in time. */
  long closes() {
    return Slack.closes(Moments.later(opens, length), slack.shorter());
  }
}
