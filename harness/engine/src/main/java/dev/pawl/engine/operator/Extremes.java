package dev.pawl.engine.operator;

import dev.pawl.engine.graph.LaggingNumber;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.NumNode;

/** The extremes of a number over the last while. */
public final class Extremes {

  private Extremes() {}

  /** Common to all: unknown while the number has been so in the window. */
  private abstract static class OverWindow extends LaggingNumber {
    private final NumNode operand;
    final long span;
    private double current = Double.NaN;
    private long lastUnknown = Moments.NEVER;

    OverWindow(boolean falls, NumNode operand, long duration) {
      super(falls);
      this.operand = operand;
      this.span = Moments.span(duration);
    }

    @Override
    protected final void connect() {
      dependOn(operand);
    }

    /** The number, which was known, has changed. */
    abstract void follow(double before, double now, long moment);

    /** The value at a moment, all values in the window being known. */
    abstract double value(double now, long moment);

    /** When a past value leaves the window that makes the value another; {@link Moments#FOREVER} if there is none. */
    abstract long nextLeaving();

    @Override
    public final boolean update(long moment) {
      double now = operand.value;
      if (current == current) {
        follow(current, now, moment);
      } else {
        lastUnknown = lastUnknown == Moments.NEVER ? Moments.NEVER : moment - 1;
      }
      lastUnknown = now == now ? lastUnknown : moment;
      current = now;
      double known = value(now, moment);
      if (lastUnknown != Moments.NEVER && Moments.later(lastUnknown, span) >= moment) {
        return become(Double.NaN, now == now ? Moments.later(lastUnknown, span + 1) : Moments.FOREVER);
      }
      return become(known, nextLeaving());
    }
  }

  /** {@code min(x) over D} and {@code max(x) over D}. */
  public static final class Extreme extends OverWindow {
    private final Candidates past;

    public Extreme(boolean greatest, NumNode operand, long duration) {
      super(greatest, operand, duration);
      past = new Candidates(greatest, span);
    }

    @Override
    void follow(double before, double now, long moment) {
      past.follow(before, now, moment);
    }

    @Override
    double value(double now, long moment) {
      past.forget(moment);
      return past.extreme(now);
    }

    @Override
    long nextLeaving() {
      return past.nextLeaving();
    }
  }

  /** {@code max(x) over D - min(x) over D}: by how much x has swung. */
  public static final class Swing extends OverWindow {
    private final Candidates greatest;
    private final Candidates least;

    public Swing(NumNode operand, long duration) {
      super(true, operand, duration);
      greatest = new Candidates(true, span);
      least = new Candidates(false, span);
    }

    @Override
    void follow(double before, double now, long moment) {
      greatest.follow(before, now, moment);
      least.follow(before, now, moment);
    }

    @Override
    double value(double now, long moment) {
      greatest.forget(moment);
      least.forget(moment);
      return greatest.extreme(now) - least.extreme(now);
    }

    @Override
    long nextLeaving() {
      return Math.min(greatest.nextLeaving(), least.nextLeaving());
    }
  }
}
