package dev.pawl.engine.operator;

import dev.pawl.engine.graph.EnumNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.NumNode;

/**
 * What looks back over the last change of a number: {@code previous}, {@code rate} and the passing speed between two
 * flags.
 */
public final class Changes {

  private static final double MOMENTS_PER_SECOND = 2e9;

  private Changes() {}

  static boolean differ(double one, double other) {
    return one != other && (one == one || other == other);
  }

  /** {@code previous(x)} of a number. */
  public static final class NumPrevious extends NumOperator {
    private double current = Double.NaN;
    private double before = Double.NaN;

    public NumPrevious(NumNode operand) {
      super(operand);
    }

    @Override
    public boolean update(long moment) {
      if (differ(operand.value, current)) {
        before = current;
        current = operand.value;
      }
      return become(before);
    }
  }

  /** {@code previous(x)} of an enumeration. */
  public static final class EnumPrevious extends EnumNode {
    private final EnumNode operand;
    private int current = UNKNOWN;
    private int before = UNKNOWN;

    public EnumPrevious(EnumNode operand) {
      this.operand = operand;
    }

    @Override
    protected void connect() {
      dependOn(operand);
    }

    @Override
    public boolean update(long moment) {
      if (operand.value != current) {
        before = current;
        current = operand.value;
      }
      return become(before);
    }
  }

  /** {@code rate(x)}: the change across the last change, over the time since the change before it. */
  public static final class Rate extends NumOperator {
    private double current = Double.NaN;
    private long changed = Moments.NEVER;
    private double rate = Double.NaN;

    public Rate(NumNode operand) {
      super(operand);
    }

    @Override
    public boolean update(long moment) {
      double now = operand.value;
      if (differ(now, current)) {
        boolean bothKnown = now == now && current == current;
        rate = bothKnown ? (now - current) / ((moment - changed) / MOMENTS_PER_SECOND) : Double.NaN;
        current = now;
        changed = moment;
      }
      return become(rate);
    }
  }

  /**
   * {@code speed(a, b, d)}: the distance over the time from a happening of the first flag to the next one of the
   * second.
   */
  public static final class PassingSpeed extends NumNode {
    private final Event from;
    private final Event to;
    private final double distance;
    private final EventTest begins;
    private final EventTest ends;
    private long began = Moments.NEVER;
    private double speed = Double.NaN;

    public PassingSpeed(Event from, Event to, double distance) {
      this.from = from;
      this.to = to;
      this.begins = new EventTest(from, this);
      this.ends = new EventTest(to, this);
      this.distance = distance;
    }

    @Override
    protected void connect() {
      dependOn(from);
      dependOn(to);
    }

    @Override
    public boolean update(long moment) {
      begins.follow(moment);
      ends.follow(moment);
      if (Math.max(begins.lastUnclear(), ends.lastUnclear()) > began) {
        began = Moments.NEVER;
      }
      if (begins.isUnclear() || ends.isUnclear()) {
        speed = Double.NaN;
      } else if (ends.happens()) {
        speed = began == Moments.NEVER ? Double.NaN : distance / ((moment - began) / MOMENTS_PER_SECOND);
        began = Moments.NEVER;
      }
      if (begins.happens()) {
        began = moment;
      }
      return become(speed);
    }
  }
}
