package dev.pawl.engine.operator;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.EnumNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;

/**
 * The nodes that have no inputs in the graph: signals, constants, and the two ends of the trace. Signals are evaluated
 * as soon as an event changes them, not when the instant closes; what depends on them is only marked then.
 */
public final class Inputs {

  private Inputs() {}

  /**
   * A boolean signal. It marks what a turn from false to true, or back, evaluates itself, since not everybody minds
   * both.
   */
  public static final class BoolSignal extends BoolNode implements LastFalse {
    private final SignalState signal;
    private int was = Truth.U;
    private long changed = Moments.NEVER;
    private long sinceBefore = Moments.NEVER;
    private long lastFalse = Moments.NEVER;
    private long begun = Moments.FOREVER;

    public BoolSignal(SignalState signal) {
      this.signal = signal;
    }

    /** The event that it turns from false to true, or the other way. */
    public Event turn(boolean falling) {
      return Event.turn(this, falling);
    }

    @Override
    public long lastFalse() {
      return lastFalse;
    }

    /** What it was at the moment before the one being evaluated. */
    int before(long moment) {
      return changed == moment ? was : value;
    }

    /** The truth of its turning at the moment being evaluated. */
    int turning(boolean falling, long moment) {
      return Edges.rise(before(moment), value, falling, begun < moment);
    }

    /** Whether it had a value by a moment. */
    boolean hasBegun(long moment) {
      return begun <= moment;
    }

    @Override
    public boolean update(long moment) {
      if (changed != moment) {
        changed = moment;
        was = value;
        sinceBefore = since();
        lastFalse = value == Truth.F ? moment - 1 : lastFalse;
      }
      int last = value;
      long now = signal.value;
      if (become(now == EventSink.UNKNOWN ? Truth.U : now == 0 ? Truth.F : Truth.T)) {
        boolean sure = !Kleene.isUnknown(last) && !Kleene.isUnknown(value);
        if (value == was) {
          keepSince(sinceBefore);
        }
        graph.markTurned(this, !sure || value == Truth.T, !sure || value == Truth.F);
        begin(moment);
      }
      return false;
    }

    /** Of several values of one moment the last counts, so that one which was known for no time does not begin it. */
    private void begin(long moment) {
      if (begun >= moment) {
        begun = value == Truth.U ? Moments.FOREVER : moment;
      }
    }
  }

  /** A number signal. */
  public static final class NumSignal extends NumNode {
    private final SignalState signal;

    public NumSignal(SignalState signal) {
      this.signal = signal;
    }

    @Override
    public boolean update(long moment) {
      long now = signal.value;
      return become(now == EventSink.UNKNOWN ? Double.NaN : Double.longBitsToDouble(now));
    }
  }

  /** An enumeration signal. */
  public static final class EnumSignal extends EnumNode {
    private final SignalState signal;

    public EnumSignal(SignalState signal) {
      this.signal = signal;
    }

    @Override
    public boolean update(long moment) {
      long now = signal.value;
      return become(now == EventSink.UNKNOWN ? UNKNOWN : (int) now);
    }
  }

  /** A truth constant. */
  public static final class BoolConstant extends BoolNode {
    private final int constant;

    public BoolConstant(boolean constant) {
      this.constant = constant ? Truth.T : Truth.F;
      this.value = this.constant;
    }

    @Override
    public boolean update(long moment) {
      return become(constant);
    }
  }

  /** A number constant. */
  public static final class NumConstant extends NumNode {
    private final double constant;

    public NumConstant(double constant) {
      this.constant = constant;
    }

    @Override
    public boolean update(long moment) {
      return become(constant);
    }
  }

  /** A member of an enumeration. */
  public static final class EnumConstant extends EnumNode {
    private final int constant;

    public EnumConstant(int constant) {
      this.constant = constant;
    }

    @Override
    public boolean update(long moment) {
      return become(constant);
    }
  }

  /** True at the first moment of the trace only. */
  public static final class TraceStart extends BoolNode {

    public TraceStart() {
      value = Truth.F;
    }

    @Override
    public boolean update(long moment) {
      boolean first = moment == graph.start();
      if (first) {
        comeBack();
      }
      return become(first ? Truth.T : Truth.F);
    }
  }

  /** True at the last moment of the trace only; the engine says which it is. */
  public static final class TraceEnd extends BoolNode {
    private boolean reached;

    public TraceEnd() {
      value = Truth.F;
    }

    /** States that the moment evaluated next is the last one. */
    public void reach() {
      reached = true;
      graph.mark(this);
    }

    @Override
    public boolean update(long moment) {
      return become(reached ? Truth.T : Truth.F);
    }
  }
}
