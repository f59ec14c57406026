package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.EnumNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.grammar.rules.model.Truth;

/** The operators on truth values of one moment. */
public final class Logic {

  private Logic() {}

  /** What the operators on two truth values share. */
  private abstract static class Pair extends BoolNode {
    final BoolNode left;
    final BoolNode right;

    Pair(BoolNode left, BoolNode right) {
      this.left = left;
      this.right = right;
    }

    @Override
    protected final void connect() {
      dependOn(left);
      dependOn(right);
      value = truth();
    }

    @Override
    public final boolean update(long moment) {
      return become(truth());
    }

    abstract int truth();
  }

  /** {@code not}. */
  public static final class Not extends BoolOperator {

    public Not(BoolNode operand) {
      super(operand);
      value = Kleene.not(operand.value);
    }

    @Override
    public boolean update(long moment) {
      return become(Kleene.not(operand.value));
    }
  }

  /** {@code and}. */
  public static final class And extends Pair {

    public And(BoolNode left, BoolNode right) {
      super(left, right);
    }

    @Override
    int truth() {
      return Kleene.and(left.value, right.value);
    }
  }

  /** {@code or}. */
  public static final class Or extends Pair {

    public Or(BoolNode left, BoolNode right) {
      super(left, right);
    }

    @Override
    int truth() {
      return Kleene.or(left.value, right.value);
    }
  }

  /** {@code =} between truth values. */
  public static final class Same extends Pair {

    public Same(BoolNode left, BoolNode right) {
      super(left, right);
    }

    @Override
    int truth() {
      return Kleene.same(left.value, right.value);
    }
  }

  /** {@code =} between members of an enumeration. */
  public static final class EnumEquals extends BoolNode {
    private final EnumNode left;
    private final EnumNode right;

    public EnumEquals(EnumNode left, EnumNode right) {
      this.left = left;
      this.right = right;
    }

    @Override
    protected void connect() {
      dependOn(left);
      dependOn(right);
    }

    @Override
    public boolean update(long moment) {
      if (left.value == EnumNode.UNKNOWN || right.value == EnumNode.UNKNOWN) {
        return become(Truth.U);
      }
      return become(left.value == right.value ? Truth.T : Truth.F);
    }
  }

  /** What two readings of one condition come to, whose times are not exact: what both say, else borderline. */
  public static final class Agreement extends Pair {

    public Agreement(BoolNode left, BoolNode right) {
      super(left, right);
    }

    @Override
    int truth() {
      return of(left.value, right.value);
    }

    static int of(int one, int other) {
      return one == other ? one : one == Truth.U || other == Truth.U ? Truth.U : Truth.B;
    }
  }
}
