package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.EnumNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Truth;

/** What is true at the one moment at which something changes. */
public final class Edges {

  private Edges() {}

  /** Common to all: for one moment one value, then, fallen back or evaluated again, the value of an operand at rest. */
  private abstract static class Edge<N extends Node> extends BoolNode {

    final N operand;

    Edge(N operand) {
      this.operand = operand;
    }

    @Override
    protected void connect() {
      dependOn(operand);
    }

    final boolean hold(int truth, int atRest) {
      if (truth != atRest) {
        graph.wakeAfter(this);
      }
      return become(truth);
    }
  }

  /** {@code rises(p)}, and {@code falls(p)} as the rise of its negation. */
  public static class Rises extends Edge<BoolNode> {
    final boolean falling;
    private int before = Truth.U;

    public Rises(BoolNode operand, boolean falling) {
      super(operand);
      this.falling = falling;
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
      return show(known);
    }

    /** A rise that is sure needs known values, so that it is surely over when at rest. */
    final boolean show(int before) {
      int truth = rise(before, operand.value, falling);
      if (truth == Truth.T) {
        graph.raise(this);
        return become(truth);
      }
      return hold(truth, atRest(operand.value));
    }
  }

  /** The rise, or fall, of a truth value at a moment. */
  static int rise(int before, int now, boolean falling) {
    return falling ? Kleene.and(Kleene.not(now), before) : Kleene.and(now, Kleene.not(before));
  }

  /** The same for one that has been the same for longer than a moment. */
  static int atRest(int truth) {
    return Kleene.and(truth, Kleene.not(truth));
  }

  /** The same of a signal, which remembers what it was, so that it need not be evaluated when the signal turns the other way. */
  public static final class SignalRises extends Rises {
    private final Inputs.BoolSignal signal;

    public SignalRises(Inputs.BoolSignal signal, boolean falling) {
      super(signal, falling);
      this.signal = signal;
    }

    @Override
    protected void connect() {
      dependOn(signal.turn(falling));
    }

    @Override
    public boolean update(long moment) {
      return show(signal.before(moment));
    }
  }

  /** {@code changes(p)} of a truth value. */
  public static final class BoolChanges extends Edge<BoolNode> {
    private int before = Truth.U;

    public BoolChanges(BoolNode operand) {
      super(operand);
    }

    @Override
    public boolean update(long moment) {
      int now = operand.value;
      int rise = Kleene.and(now, Kleene.not(before));
      int fall = Kleene.and(before, Kleene.not(now));
      before = now;
      return hold(Kleene.or(rise, fall), Kleene.and(now, Kleene.not(now)));
    }
  }

  /** {@code changes(x)} of a number. */
  public static final class NumChanges extends Edge<NumNode> {
    private double before = Double.NaN;

    public NumChanges(NumNode operand) {
      super(operand);
    }

    @Override
    public boolean update(long moment) {
      double now = operand.value;
      int truth = now != now || before != before ? Truth.U : now == before ? Truth.F : Truth.T;
      before = now;
      return hold(truth, now != now ? Truth.U : Truth.F);
    }
  }

  /** {@code changes(x)} of an enumeration. */
  public static final class EnumChanges extends Edge<EnumNode> {
    private int before = EnumNode.UNKNOWN;

    public EnumChanges(EnumNode operand) {
      super(operand);
    }

    @Override
    public boolean update(long moment) {
      int now = operand.value;
      int truth = now == EnumNode.UNKNOWN || before == EnumNode.UNKNOWN ? Truth.U : now == before ? Truth.F : Truth.T;
      before = now;
      return hold(truth, now == EnumNode.UNKNOWN ? Truth.U : Truth.F);
    }
  }
}
