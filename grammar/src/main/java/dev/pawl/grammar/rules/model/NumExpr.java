package dev.pawl.grammar.rules.model;

/** An expression with a number, in SI base units, at every time. Durations are in nanoseconds. */
public sealed interface NumExpr extends Expr {

  <R> R accept(Visitor<R> visitor);

  @Override
  default <R> R accept(Expr.Visitor<R> visitor) {
    return accept((Visitor<R>) visitor);
  }

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Constant e);
    R visit(Signal e);
    R visit(Negate e);
    R visit(Arithmetic e);
    R visit(CountInLast e);
    R visit(CountSince e);
    R visit(TimeSince e);
    R visit(Extreme e);
    R visit(Mean e);
    R visit(Rate e);
    R visit(Previous e);
    R visit(PassingSpeed e);
    R visit(Trains e);
  }

  record Constant(double value) implements NumExpr {
    @Override public Parts parts() { return Parts.NONE; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Signal(int signal) implements NumExpr {
    @Override public Parts parts() { return Parts.ofSignal(signal); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Negate(NumExpr operand) implements NumExpr {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Arithmetic(Operator operator, NumExpr left, NumExpr right) implements NumExpr {
    @Override public Parts parts() { return Parts.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

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
  record CountInLast(BoolExpr event, long duration) implements NumExpr {
    @Override public Parts parts() { return Parts.of(event); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Number of instants since the anchor last became true, that instant included, at which the event became true. */
  record CountSince(BoolExpr event, BoolExpr anchor) implements NumExpr {
    @Override public Parts parts() { return Parts.of(event, anchor); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Seconds since the event was last true; unknown before. */
  record TimeSince(BoolExpr event) implements NumExpr {
    @Override public Parts parts() { return Parts.of(event); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Extreme(boolean greatest, NumExpr operand, long duration) implements NumExpr {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Time average over the last {@code duration}. */
  record Mean(NumExpr operand, long duration) implements NumExpr {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Change per second across the last change. */
  record Rate(NumExpr operand) implements NumExpr {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Value just before the last change. */
  record Previous(NumExpr operand) implements NumExpr {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Distance in metres over the time from the last rising edge of one flag to the next of the other. */
  record PassingSpeed(BoolExpr from, BoolExpr to, double distance) implements NumExpr {
    @Override public Parts parts() { return Parts.of(from, to); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Number of trains in a zone; unknown while occupancy is not proven. */
  record Trains(int zone) implements NumExpr {
    @Override public Parts parts() { return Parts.ofZone(zone); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
