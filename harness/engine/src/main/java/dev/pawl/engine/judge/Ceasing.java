package dev.pawl.engine.judge;

import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;

/** When a condition ceased so soon after obligations arose by it that it may not have been so then. */
final class Ceasing {

  private final long soon;
  private final LongQueue ceased = new LongQueue(1);
  /** The last moment at which an obligation arose after which it has not ceased. */
  private long lastArisen = Moments.NEVER;

  /** {@code soon}: less than this after an obligation arose, in moments; 0 for never. */
  Ceasing(long soon) {
    this.soon = soon;
  }

  long soon() {
    return soon;
  }

  /** An obligation has arisen. */
  void arise(long moment) {
    lastArisen = soon > 0 ? moment : Moments.NEVER;
  }

  /** The condition is not so at a moment, for certain. */
  void cease(long moment) {
    if (lastArisen != Moments.NEVER && moment > lastArisen) {
      if (moment - lastArisen < soon) {
        ceased.set(ceased.add(), 0, moment);
      }
      lastArisen = Moments.NEVER;
    }
  }

  /** Whether it ceased so soon after an obligation arose that this may not have arisen. */
  boolean hasCeased(long triggered) {
    int place = ceased.size();
    while (place > 0 && ceased.get(place - 1, 0) > triggered) {
      place--;
    }
    return place < ceased.size() && ceased.get(place, 0) - triggered < soon;
  }

  /** Nothing is left that arose before. */
  void clear() {
    ceased.clear();
  }
}
