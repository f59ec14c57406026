package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;
import java.util.List;

/**
 * A condition that rests on several signals, and is false for so short a time that it may not have been: the order may
 * be open in which one of its parts came and another went.
 */
public final class Brief {

  private Brief() {}

  /** It is borderline for some moments when it has become false, and false only after that. */
  public static final class Fall extends Doubted {

    /** In moments. */
    public Fall(BoolNode condition, long brief) {
      super(condition, brief);
    }

    @Override
    public boolean update(long moment) {
      long since = since(condition.value == Truth.T, moment);
      boolean brief = condition.value == Truth.F && since < this.brief;
      graph.wake(this, brief ? Moments.later(moment, this.brief - since) : Moments.FOREVER);
      return become(brief ? Truth.B : condition.value);
    }
  }

  /** It is borderline at the moment at which it becomes true again too soon after it was, or may have been. */
  public static final class Rise extends Doubted {

    /** In moments. */
    public Rise(BoolNode condition, long brief) {
      super(condition, brief);
    }

    @Override
    public boolean update(long moment) {
      long since = since(condition.value != Truth.F, moment);
      boolean brief = condition.value == Truth.T && since > 1 && since < this.brief;
      if (brief) {
        comeBack();
      }
      return become(brief ? Truth.B : condition.value);
    }
  }

  /** A condition, and when it was so. */
  private abstract static class Doubted extends BoolNode {
    final BoolNode condition;
    final long brief;
    private boolean wasSo;
    private long lastSo = Moments.NEVER;

    Doubted(BoolNode condition, long brief) {
      this.condition = condition;
      this.brief = brief;
    }

    @Override
    protected void connect() {
      dependOn(condition);
      value = condition.value;
    }

    /** How long ago, in moments, something was so before this moment; to be asked once at a moment. */
    final long since(boolean isSo, long moment) {
      lastSo = wasSo ? moment - 1 : lastSo;
      wasSo = isSo;
      return lastSo == Moments.NEVER ? Moments.FOREVER : moment - lastSo;
    }

    @Override
    public BoolNode seen() {
      return condition.seen();
    }

    @Override
    public boolean mayHaveBeenOtherwise(long after, long moment, boolean scattered, List<SignalState> signals) {
      return condition.mayHaveBeenOtherwise(after, moment, scattered, signals);
    }

    @Override
    public long wavered() {
      return condition.wavered();
    }
  }
}
