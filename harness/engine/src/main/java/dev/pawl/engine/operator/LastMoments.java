package dev.pawl.engine.operator;

import dev.pawl.engine.graph.Moments;
import dev.pawl.grammar.rules.model.Truth;

/** The last moment at which a truth value was each of the four, as far as it has been followed. */
public final class LastMoments {

  private int current = -1;
  private long began;
  private final long[] last = {Moments.NEVER, Moments.NEVER, Moments.NEVER, Moments.NEVER};

  /** Takes note of the value at a moment; between calls the value is what the last call said. */
  public void follow(int truth, long moment) {
    if (truth != current) {
      if (current >= 0) {
        last[current] = moment - 1;
      }
      current = truth;
      began = moment;
    }
    last[truth] = moment;
  }

  /** Takes note that the value counts as another one too at a moment. */
  public void mark(int truth, long moment) {
    last[truth] = moment;
  }

  /** The value may not have been {@code truth} after a moment, up to another one: it counts as borderline there. */
  void doubt(int truth, long after, long until) {
    last[truth] = after;
    last[Truth.B] = Math.max(last[Truth.B], until);
  }

  /** Whether the value is {@code truth}, as far as it has been followed. */
  boolean is(int truth) {
    return current == truth;
  }

  /** Since when the value has been what it is, as far as it has been followed. */
  public long began() {
    return began;
  }

  /** The last moment at which the value was {@code truth}; the moment of the last call if it is so now. */
  public long last(int truth) {
    return last[truth];
  }

  /**
   * The last moment before {@code moment} at which the value was {@code truth}; to be asked before that moment is
   * followed.
   */
  public long lastBefore(int truth, long moment) {
    return truth == current ? moment - 1 : last[truth];
  }

  /** Whether the value was {@code truth} at some moment from {@code from} on. */
  public boolean since(int truth, long from) {
    return last[truth] >= from && last[truth] != Moments.NEVER;
  }

  /** Whether the value was unknown or borderline at some moment from {@code from} on. */
  public boolean unknownSince(long from) {
    return since(Truth.U, from) || since(Truth.B, from);
  }

  /** The unknown that a judgement over the moments from {@code from} on rests on: U if one was U, else B. */
  public int cause(long from) {
    return since(Truth.U, from) ? Truth.U : Truth.B;
  }

  /**
   * The unknown that was there at some moment of {@code [from, moment - 1]}, U before B; F for none. To be asked before
   * {@code moment} is followed.
   */
  public int causeBefore(long from, long moment) {
    for (int truth : new int[] {Truth.U, Truth.B}) {
      if (lastBefore(truth, moment) >= from && lastBefore(truth, moment) != Moments.NEVER) {
        return truth;
      }
    }
    return Truth.F;
  }

  /** The earliest moment after {@code moment} at which a past value leaves a window of {@code span} moments. */
  long nextLeaving(long moment, long span) {
    long next = Moments.FOREVER;
    for (int truth = 0; truth < last.length; truth++) {
      if (truth != current && last[truth] != Moments.NEVER) {
        long leaves = Moments.later(last[truth], span + 1);
        if (leaves > moment && leaves < next) {
          next = leaves;
        }
      }
    }
    return next;
  }
}
