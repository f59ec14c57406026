package dev.pawl.grammar.rules.model;

/** An expression with a truth value at every time. Durations are in nanoseconds. */
public sealed interface BoolExpr {

  record Constant(boolean value) implements BoolExpr {}

  record Signal(int signal) implements BoolExpr {}

  record Not(BoolExpr operand) implements BoolExpr {}

  record And(BoolExpr left, BoolExpr right) implements BoolExpr {}

  record Or(BoolExpr left, BoolExpr right) implements BoolExpr {}

  /** Both have the same truth value ({@code =} between booleans; {@code !=} is its negation). */
  record Same(BoolExpr left, BoolExpr right) implements BoolExpr {}

  /**
   * A comparison of numbers.
   *
   * @param tolerance SI; a distance smaller than this makes the result borderline; 0 for exact
   * @param dimension of both sides
   */
  record Compare(Comparison comparison, NumExpr left, NumExpr right, double tolerance, Dimension dimension) implements BoolExpr {

    /** A comparison of plain numbers. */
    public Compare(Comparison comparison, NumExpr left, NumExpr right, double tolerance) {
      this(comparison, left, right, tolerance, Dimension.NONE);
    }
  }

  record EnumEquals(EnumExpr left, EnumExpr right) implements BoolExpr {}

  record Rises(BoolExpr operand) implements BoolExpr {}

  record Falls(BoolExpr operand) implements BoolExpr {}

  record BoolChanges(BoolExpr operand) implements BoolExpr {}

  record NumChanges(NumExpr operand) implements BoolExpr {}

  record EnumChanges(EnumExpr operand) implements BoolExpr {}

  /** {@code operand for duration}. */
  record HeldFor(BoolExpr operand, long duration) implements BoolExpr {}

  /** {@code operand in last duration}. */
  record InLast(BoolExpr operand, long duration) implements BoolExpr {}

  /** {@code operand since anchor}. */
  record Since(BoolExpr operand, BoolExpr anchor) implements BoolExpr {}

  /** Value just before the last change of a boolean. */
  record Previous(BoolExpr operand) implements BoolExpr {}

  record Occupied(int zone) implements BoolExpr {}

  record Enters(int zone) implements BoolExpr {}

  record Leaves(int zone) implements BoolExpr {}

  /** True at the instant a train that had begun to enter withdraws from the zone the way it came. */
  record BacksOut(int zone) implements BoolExpr {}

  /** True at the instant of a tracking finding of the zone. */
  record Miscounts(int zone) implements BoolExpr {}

  /** True at the first instant of the trace only. */
  record TraceStart() implements BoolExpr {}

  /** True at the last instant of the trace only. */
  record TraceEnd() implements BoolExpr {}
}
