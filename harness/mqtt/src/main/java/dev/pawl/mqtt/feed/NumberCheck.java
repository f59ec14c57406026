package dev.pawl.mqtt.feed;

import dev.pawl.mqtt.client.Stamp;
import java.util.HashMap;
import java.util.Map;

/** Follows the numbers that harnesses write on their messages, run by run and topic by topic. */
public final class NumberCheck {

  /** What a number says. */
  public enum Order {
    /** Not numbered, or the first of its run. */
    UNKNOWN,
    NEXT,
    /** Higher than the next: some are missing, or come later. */
    GAP,
    /** Lower than the highest, and not seen before: it had been missing. */
    REORDERED,
    DUPLICATE
  }

  private static final int REMEMBERED = 512;
  private static final int MOST_FOLLOWED = 4096;

  /** One run's numbers on one topic: the highest, and a ring of which of the last were seen. */
  private static final class Run {
    private final long[] seen = new long[REMEMBERED];
    private long highest;
  }

  private final Map<String, Run> runs = new HashMap<>();

  /** Takes the stamp of the next message on a topic. */
  public Order next(String topic, Stamp stamp) {
    if (!stamp.isNumbered() || stamp.sequence() <= 0) {
      return Order.UNKNOWN;
    }
    Run run = runs.get(stamp.run() + "\0" + topic);
    if (run == null) {
      return begin(topic, stamp);
    }
    long number = stamp.sequence();
    int place = (int) (number % REMEMBERED);
    if (run.seen[place] == number) {
      return Order.DUPLICATE;
    }
    if (number < run.highest) {
      run.seen[place] = Math.max(run.seen[place], number);
      return Order.REORDERED;
    }
    run.seen[place] = number;
    long skipped = number - run.highest - 1;
    run.highest = number;
    return skipped > 0 ? Order.GAP : Order.NEXT;
  }

  private Order begin(String topic, Stamp stamp) {
    if (runs.size() >= MOST_FOLLOWED) {
      return Order.UNKNOWN;
    }
    Run run = new Run();
    run.highest = stamp.sequence();
    run.seen[(int) (stamp.sequence() % REMEMBERED)] = stamp.sequence();
    runs.put(stamp.run() + "\0" + topic, run);
    return Order.UNKNOWN;
  }
}
