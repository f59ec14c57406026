package dev.pawl.plant.loop;

import java.util.ArrayDeque;

/** A flag between what is before it and what it tells: a change must last for its filter's time, and comes late. */
final class FlagOutput {

  private static final double NEAR = 1e-9;

  private final double filter;
  private final double delay;
  private final ArrayDeque<Change> changes = new ArrayDeque<>();
  private boolean seen;
  private boolean told;

  /** A change that has been seen. */
  private record Change(double time, boolean value) {}

  FlagOutput(double delay, double filter, boolean value) {
    this.delay = delay;
    this.filter = filter;
    this.seen = value;
    this.told = value;
  }

  void see(double time, boolean value) {
    if (value == seen) {
      return;
    }
    seen = value;
    Change last = changes.peekLast();
    if (last != null && time - last.time < filter) {
      changes.removeLast();
    } else {
      changes.addLast(new Change(time, value));
    }
  }

  /** What it tells at a time. */
  boolean at(double time) {
    while (!changes.isEmpty() && changes.peekFirst().time + filter + delay <= time + NEAR) {
      told = changes.removeFirst().value;
    }
    return told;
  }
}
