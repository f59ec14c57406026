package dev.pawl.plant.loop;

import java.util.ArrayDeque;

/**
 * A flag between what is before it and what it tells: a change must last for its filter's time, and comes late. Its
 * faults come before the filter, but for lateness.
 */
final class FlagOutput {

  private static final double NEAR = 1e-9;
  /** Seconds from bounce to bounce of a contact that chatters. */
  private static final double BOUNCE = 0.02;

  private final double filter;
  private final double delay;
  private final ArrayDeque<Change> changes = new ArrayDeque<>();
  private boolean beside;
  private boolean shown;
  private boolean seen;
  private boolean told;
  private int misses;
  private boolean missing;
  private double chatters;
  private double late;
  private double bounce = Double.POSITIVE_INFINITY;
  private double rest;

  /** A change that has been seen. */
  private record Change(double time, boolean value) {}

  FlagOutput(double delay, double filter, boolean value) {
    this.delay = delay;
    this.filter = filter;
    this.beside = value;
    this.shown = value;
    this.seen = value;
    this.told = value;
  }

  /** A fault: so many times it does not see that something comes before it; 0 ends that. */
  void miss(int times) {
    misses = times;
  }

  /** A fault: its contact bounces for so many seconds after each change. */
  void chatter(double seconds) {
    chatters = seconds;
  }

  /** A fault: it tells so many seconds later. */
  void late(double seconds) {
    late = seconds;
  }

  /** Takes whether something is before it from a time on. */
  void see(double time, boolean value) {
    if (value == beside) {
      return;
    }
    beside = value;
    bounceUpTo(time);
    boolean missed = missing || value && misses > 0;
    misses -= missed && value ? 1 : 0;
    missing = missed && value;
    if (missed) {
      return;
    }
    shown = value;
    change(time, value);
    if (chatters > 0) {
      bounce = time + BOUNCE;
      rest = time + chatters;
    }
  }

  /** Bounces come in pairs, so that they end with what is so. */
  private void bounceUpTo(double time) {
    while (bounce <= time + NEAR) {
      change(bounce, !seen);
      bounce = bounce + BOUNCE <= rest || seen != shown ? bounce + BOUNCE : Double.POSITIVE_INFINITY;
    }
  }

  private void change(double time, boolean value) {
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
    bounceUpTo(time);
    while (!changes.isEmpty() && changes.peekFirst().time + filter + delay + late <= time + NEAR) {
      told = changes.removeFirst().value;
    }
    return told;
  }
}
