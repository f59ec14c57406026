package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.grammar.rules.model.Truth;

/** The operators that look back over a duration, and {@code since}. */
public final class Windows {

  private Windows() {}

  /** {@code p for D}. */
  public static final class HeldFor extends BoolOperator {
    private final long span;
    private final Recency recency = new Recency();

    public HeldFor(BoolNode operand, long duration) {
      super(operand);
      this.span = Moments.span(duration);
    }

    @Override
    public boolean update(long moment) {
      recency.follow(operand.value, moment);
      long full = Moments.later(graph.start(), span);
      long next = recency.nextLeaving(moment, span);
      graph.wake(this, moment < full ? Math.min(full, next) : next);
      return become(moment < full ? Truth.F : overWindow(moment - span));
    }

    private int overWindow(long from) {
      if (recency.since(Truth.F, from)) {
        return Truth.F;
      }
      return recency.unknownSince(from) ? recency.cause(from) : Truth.T;
    }
  }

  /** {@code p in last D}. */
  public static final class InLast extends BoolOperator {
    private final long span;
    private final Recency recency = new Recency();

    public InLast(BoolNode operand, long duration) {
      super(operand);
      this.span = Moments.span(duration);
    }

    @Override
    public boolean update(long moment) {
      recency.follow(operand.value, moment);
      graph.wake(this, recency.nextLeaving(moment, span));
      long from = Moments.later(graph.start(), span) > moment ? graph.start() : moment - span;
      if (recency.since(Truth.T, from)) {
        return become(Truth.T);
      }
      return become(recency.unknownSince(from) ? recency.cause(from) : Truth.F);
    }
  }

  /** {@code p since q}. */
  public static final class Since extends BoolNode {
    private final BoolNode operand;
    private final BoolNode anchor;
    private int state = Truth.F;

    public Since(BoolNode operand, BoolNode anchor) {
      this.operand = operand;
      this.anchor = anchor;
    }

    @Override
    protected void connect() {
      dependOn(operand);
      dependOn(anchor);
    }

    /** Where the anchor is borderline and the operand unknown, one step does not settle it. */
    private int next() {
      return Kleene.or(anchor.value, Kleene.and(operand.value, state));
    }

    @Override
    public boolean update(long moment) {
      state = next();
      if (next() != state) {
        comeBack();
      }
      return become(state);
    }
  }

  /** The value of a boolean just before its last change. */
  public static final class BoolPrevious extends BoolOperator {
    private int current = Truth.U;
    private int before = Truth.U;

    public BoolPrevious(BoolNode operand) {
      super(operand);
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
}
