package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.grammar.rules.model.Truth;

/** When a condition was last false. It is followed all the time, while a judge with nothing to judge looks away. */
public interface LastFalse {

  /** The last moment at which it was false, asked while it is not; {@link Moments#NEVER} where there is none. */
  long lastFalse();

  /** Of a condition that is not a signal, which would know it itself. */
  final class OfCondition extends Node implements LastFalse {
    private final BoolNode condition;
    private int before = Truth.U;
    private long followed = Moments.NEVER;
    private long last = Moments.NEVER;

    public OfCondition(BoolNode condition) {
      this.condition = condition;
    }

    @Override
    protected void connect() {
      dependOnRise(condition);
    }

    @Override
    public boolean update(long moment) {
      if (before == Truth.F || hasFallenBack(moment)) {
        last = moment - 1;
      }
      before = condition.value;
      followed = moment;
      return false;
    }

    /** A momentary condition falls back by itself, unless it is true again at the very next moment. */
    private boolean hasFallenBack(long moment) {
      return before == Truth.T && condition.isMomentary() && followed < moment - 1;
    }

    @Override
    public long lastFalse() {
      return last;
    }
  }
}
