package dev.pawl.engine.judge;

import dev.pawl.engine.graph.LongQueue;

/**
 * The least value that a number had from any past moment up to now: kept are the values that no later one undercuts,
 * each with the first and the last moment it stood. Unknown values leave gaps.
 */
final class RunningMinimum {

  private static final int FIRST = 0;
  private static final int LAST = 1;
  private static final int VALUE = 2;

  private final LongQueue kept = new LongQueue(3);
  private double current = Double.NaN;
  private long place;
  private double least;

  /** Takes the value at a moment; between calls the value is what the last call said. */
  void follow(double value, long moment) {
    boolean standing = current == current;
    if (value == current) {
      kept.set(kept.size() - 1, LAST, moment);
      return;
    }
    if (standing) {
      kept.set(kept.size() - 1, LAST, moment - 1);
    }
    current = value;
    if (value == value) {
      push(value, moment);
    }
  }

  private void push(double value, long moment) {
    while (!kept.isEmpty() && Double.longBitsToDouble(kept.get(kept.size() - 1, VALUE)) > value) {
      kept.removeLast();
    }
    int added = kept.add();
    kept.set(added, FIRST, moment);
    kept.set(added, LAST, moment);
    kept.set(added, VALUE, Double.doubleToRawLongBits(value));
  }

  /** Forgets values that ended before {@code moment}; no later question may reach further back. */
  void forgetBefore(long moment) {
    while (kept.size() > 1 && kept.get(0, LAST) < moment) {
      kept.removeFirst();
    }
  }

  /**
   * Finds the least value from {@code from} up to the last call of {@link #follow}; false if it was unknown all the
   * time.
   */
  boolean find(long from) {
    int low = 0;
    int high = kept.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (kept.get(middle, LAST) < from) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    if (low == kept.size()) {
      return false;
    }
    least = Double.longBitsToDouble(kept.get(low, VALUE));
    place = Math.max(from, kept.get(low, FIRST));
    return true;
  }

  /** The value found last. */
  double least() {
    return least;
  }

  /** The first moment in the range at which it stood. */
  long place() {
    return place;
  }
}
