package dev.pawl.engine.operator;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.EnumNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Truth;

/** What is true at the one moment at which something changes. */
public final class Edges {

  private Edges() {}

  /**
   * Common to all: for one moment one value, then, fallen back or evaluated again, the value of an operand at rest. A
   * first value is no edge.
   */
  private abstract static class Edge<N extends Node> extends BoolNode {

    final N operand;
    final Begun begun;

    Edge(N operand, Begun begun) {
      this.operand = operand;
      this.begun = begun;
      this.value = Truth.F;
    }

    @Override
    protected void connect() {
      dependOn(operand);
      dependOnRise(begun);
    }

    /** Whether the operand had begun before a moment. */
    final boolean hadBegun(long moment) {
      return begun.at() < moment;
    }

    final boolean hold(int truth, int atRest) {
      if (truth != atRest) {
        comeBack();
      }
      return become(truth);
    }
  }

  /** {@code rises(p)}, and {@code falls(p)} as the rise of its negation. */
  public static class Rises extends Edge<BoolNode> {
    final boolean falling;
    private int before;

    public Rises(BoolNode operand, boolean falling, Begun begun) {
      super(operand, begun);
      this.falling = falling;
      this.before = operand.value;
    }

    /** What rises at one moment cannot rise at the next, while other changes can follow at once. */
    @Override
    public final boolean isMomentary() {
      return true;
    }

    @Override
    public boolean update(long moment) {
      int known = before;
      before = operand.value;
      return show(rise(known, operand.value, falling, hadBegun(moment)), atRest(operand.value, hadBegun(moment + 1)));
    }

    /** A rise that is sure needs known values, so that it is surely over when at rest. */
    final boolean show(int truth, int atRest) {
      if (truth == Truth.T) {
        graph.raise(this);
        return become(truth);
      }
      return hold(truth, atRest);
    }
  }

  /**
   * The rise, or fall, of a truth value at a moment.
   *
   * @param begun whether it had begun at the moment before
   */
  static int rise(int before, int now, boolean falling, boolean begun) {
    if (before == Truth.U && !begun) {
      return Truth.F;
    }
    return falling ? Kleene.and(Kleene.not(now), before) : Kleene.and(now, Kleene.not(before));
  }

  /** The same for one that has been the same for longer than a moment. */
  static int atRest(int truth, boolean begun) {
    return rise(truth, truth, false, begun);
  }

  /**
   * The same of a signal, which remembers what it was, so that it need not be evaluated when the signal turns the other
   * way.
   */
  public static final class SignalRises extends Rises {
    private final Inputs.BoolSignal signal;

    public SignalRises(Inputs.BoolSignal signal, boolean falling) {
      super(signal, falling, null);
      this.signal = signal;
    }

    @Override
    protected void connect() {
      dependOn(signal.turn(falling));
    }

    @Override
    public boolean update(long moment) {
      return show(signal.turning(falling, moment), atRest(signal.value, signal.hasBegun(moment)));
    }
  }

  /** {@code changes(p)} of a truth value. */
  public static final class BoolChanges extends Edge<BoolNode> {
    private int before;

    public BoolChanges(BoolNode operand, Begun begun) {
      super(operand, begun);
      this.before = operand.value;
    }

    @Override
    public boolean update(long moment) {
      int now = operand.value;
      int rise = rise(before, now, false, hadBegun(moment));
      int fall = rise(before, now, true, hadBegun(moment));
      before = now;
      return hold(Kleene.or(rise, fall), atRest(now, hadBegun(moment + 1)));
    }
  }

  /** {@code changes(x)} of what may be unknown or differ from what it was. */
  private static int change(boolean knownBefore, boolean known, boolean differs, boolean begun) {
    if (!knownBefore && !begun) {
      return Truth.F;
    }
    return !knownBefore || !known ? Truth.U : differs ? Truth.T : Truth.F;
  }

  /** {@code changes(x)} of a number. */
  public static final class NumChanges extends Edge<NumNode> {
    private double before = Double.NaN;

    public NumChanges(NumNode operand, Begun begun) {
      super(operand, begun);
    }

    @Override
    public boolean update(long moment) {
      double now = operand.value;
      boolean known = now == now;
      int truth = change(before == before, known, now != before, hadBegun(moment));
      before = now;
      return hold(truth, change(known, known, false, hadBegun(moment + 1)));
    }
  }

  /** {@code changes(x)} of an enumeration. */
  public static final class EnumChanges extends Edge<EnumNode> {
    private int before = EnumNode.UNKNOWN;

    public EnumChanges(EnumNode operand, Begun begun) {
      super(operand, begun);
    }

    @Override
    public boolean update(long moment) {
      int now = operand.value;
      boolean known = now != EnumNode.UNKNOWN;
      int truth = change(before != EnumNode.UNKNOWN, known, now != before, hadBegun(moment));
      before = now;
      return hold(truth, change(known, known, false, hadBegun(moment + 1)));
    }
  }
}
