package dev.pawl.grammar.rules.model;

/** An expression with a truth value at every time. Durations are in nanoseconds. */
public sealed interface BoolExpr extends Expr permits BoolExpr.State, BoolExpr.Moment, BoolExpr.And, BoolExpr.Or {

  <R> R accept(Visitor<R> visitor);

  @Override
  default <R> R accept(Expr.Visitor<R> visitor) {
    return accept((Visitor<R>) visitor);
  }

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Constant e);
    R visit(Signal e);
    R visit(Not e);
    R visit(And e);
    R visit(Or e);
    R visit(Same e);
    R visit(Compare e);
    R visit(EnumEquals e);
    R visit(Rises e);
    R visit(Falls e);
    R visit(BoolChanges e);
    R visit(NumChanges e);
    R visit(EnumChanges e);
    R visit(HeldFor e);
    R visit(InLast e);
    R visit(Since e);
    R visit(Previous e);
    R visit(Occupied e);
    R visit(Enters e);
    R visit(Leaves e);
    R visit(BacksOut e);
    R visit(Miscounts e);
    R visit(TraceStart e);
    R visit(TraceEnd e);
  }

  /** A question to which most records have one answer. */
  interface Question<R> extends Visitor<R> {
    R otherwise(BoolExpr e);

    @Override default R visit(Constant e) { return otherwise(e); }
    @Override default R visit(Signal e) { return otherwise(e); }
    @Override default R visit(Not e) { return otherwise(e); }
    @Override default R visit(And e) { return otherwise(e); }
    @Override default R visit(Or e) { return otherwise(e); }
    @Override default R visit(Same e) { return otherwise(e); }
    @Override default R visit(Compare e) { return otherwise(e); }
    @Override default R visit(EnumEquals e) { return otherwise(e); }
    @Override default R visit(Rises e) { return otherwise(e); }
    @Override default R visit(Falls e) { return otherwise(e); }
    @Override default R visit(BoolChanges e) { return otherwise(e); }
    @Override default R visit(NumChanges e) { return otherwise(e); }
    @Override default R visit(EnumChanges e) { return otherwise(e); }
    @Override default R visit(HeldFor e) { return otherwise(e); }
    @Override default R visit(InLast e) { return otherwise(e); }
    @Override default R visit(Since e) { return otherwise(e); }
    @Override default R visit(Previous e) { return otherwise(e); }
    @Override default R visit(Occupied e) { return otherwise(e); }
    @Override default R visit(Enters e) { return otherwise(e); }
    @Override default R visit(Leaves e) { return otherwise(e); }
    @Override default R visit(BacksOut e) { return otherwise(e); }
    @Override default R visit(Miscounts e) { return otherwise(e); }
    @Override default R visit(TraceStart e) { return otherwise(e); }
    @Override default R visit(TraceEnd e) { return otherwise(e); }
  }

  /** What can be true for a while. */
  sealed interface State extends BoolExpr {}

  /** What is true at single instants only. */
  sealed interface Moment extends BoolExpr {}

  record Constant(boolean value) implements State {
    @Override public Parts parts() { return Parts.NONE; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Signal(int signal) implements State {
    @Override public Parts parts() { return Parts.ofSignal(signal); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Not(BoolExpr operand) implements State {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record And(BoolExpr left, BoolExpr right) implements BoolExpr {
    @Override public Parts parts() { return Parts.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Or(BoolExpr left, BoolExpr right) implements BoolExpr {
    @Override public Parts parts() { return Parts.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Both have the same truth value ({@code =} between booleans; {@code !=} is its negation). */
  record Same(BoolExpr left, BoolExpr right) implements State {
    @Override public Parts parts() { return Parts.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * A comparison of numbers.
   *
   * @param tolerance SI; a distance smaller than this makes the result borderline; 0 for exact
   * @param dimension of both sides
   */
  record Compare(Comparison comparison, NumExpr left, NumExpr right, double tolerance, Dimension dimension)
      implements State {

    /** A comparison of plain numbers. */
    public Compare(Comparison comparison, NumExpr left, NumExpr right, double tolerance) {
      this(comparison, left, right, tolerance, Dimension.NONE);
    }

    /** The comparison that is true where this one is false. */
    public Compare negated() {
      return new Compare(comparison.negated(), left, right, tolerance, dimension);
    }

    /** The same comparison with its sides exchanged. */
    public Compare mirrored() {
      return new Compare(comparison.mirrored(), right, left, tolerance, dimension);
    }

    @Override public Parts parts() { return Parts.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record EnumEquals(EnumExpr left, EnumExpr right) implements State {
    @Override public Parts parts() { return Parts.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Rises(BoolExpr operand) implements Moment {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Falls(BoolExpr operand) implements Moment {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record BoolChanges(BoolExpr operand) implements Moment {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record NumChanges(NumExpr operand) implements Moment {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record EnumChanges(EnumExpr operand) implements Moment {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code operand for duration}. */
  record HeldFor(BoolExpr operand, long duration) implements State {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code operand in last duration}. */
  record InLast(BoolExpr operand, long duration) implements State {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code operand since anchor}. */
  record Since(BoolExpr operand, BoolExpr anchor) implements State {
    @Override public Parts parts() { return Parts.of(operand, anchor); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Value just before the last change of a boolean. */
  record Previous(BoolExpr operand) implements State {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Occupied(int zone) implements State {
    @Override public Parts parts() { return Parts.ofZone(zone); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Enters(int zone) implements Moment {
    @Override public Parts parts() { return Parts.ofZone(zone); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Leaves(int zone) implements Moment {
    @Override public Parts parts() { return Parts.ofZone(zone); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** True at the instant a train that had begun to enter withdraws from the zone the way it came. */
  record BacksOut(int zone) implements Moment {
    @Override public Parts parts() { return Parts.ofZone(zone); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** True at the instant of a tracking finding of the zone. */
  record Miscounts(int zone) implements Moment {
    @Override public Parts parts() { return Parts.ofZone(zone); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** True at the first instant of the trace only. */
  record TraceStart() implements Moment {
    @Override public Parts parts() { return Parts.NONE; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** True at the last instant of the trace only. */
  record TraceEnd() implements Moment {
    @Override public Parts parts() { return Parts.NONE; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
