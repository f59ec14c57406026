package dev.pawl.grammar.rules.model;

/** An expression with a number, in SI base units, at every time. Durations are in nanoseconds. */
public sealed interface NumExpr {

  record Constant(double value) implements NumExpr {}

  record Signal(int signal) implements NumExpr {}

  record Negate(NumExpr operand) implements NumExpr {}

  record Arithmetic(Operator operator, NumExpr left, NumExpr right) implements NumExpr {}

  enum Operator {
    ADD("+"),
    SUBTRACT("-"),
    MULTIPLY("*"),
    DIVIDE("/");

    private final String symbol;

    Operator(String symbol) {
      this.symbol = symbol;
    }

    public String symbol() {
      return symbol;
    }
  }

  /** Number of instants in the last {@code duration} at which the event became true. */
  record CountInLast(BoolExpr event, long duration) implements NumExpr {}

  /** Number of instants since the anchor last became true, that instant included, at which the event became true. */
  record CountSince(BoolExpr event, BoolExpr anchor) implements NumExpr {}

  /** Seconds since the event was last true; unknown before. */
  record TimeSince(BoolExpr event) implements NumExpr {}

  record Extreme(boolean greatest, NumExpr operand, long duration) implements NumExpr {}

  /** Time average over the last {@code duration}. */
  record Mean(NumExpr operand, long duration) implements NumExpr {}

  /** Change per second across the last change. */
  record Rate(NumExpr operand) implements NumExpr {}

  /** Value just before the last change. */
  record Previous(NumExpr operand) implements NumExpr {}

  /** Distance in metres over the time from the last rising edge of one flag to the next of the other. */
  record PassingSpeed(BoolExpr from, BoolExpr to, double distance) implements NumExpr {}

  /** Number of trains in a zone; unknown while occupancy is not proven. */
  record Trains(int zone) implements NumExpr {}
}
