package dev.pawl.grammar.rules.model;

/** An expression with a member of an enumeration, as its index, at every time. */
public sealed interface EnumExpr extends Expr {

  <R> R accept(Visitor<R> visitor);

  @Override
  default <R> R accept(Expr.Visitor<R> visitor) {
    return accept((Visitor<R>) visitor);
  }

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Literal e);
    R visit(Signal e);
    R visit(Previous e);
  }

  record Literal(int index) implements EnumExpr {
    @Override public Parts parts() { return Parts.NONE; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Signal(int signal) implements EnumExpr {
    @Override public Parts parts() { return Parts.ofSignal(signal); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Value just before the last change. */
  record Previous(EnumExpr operand) implements EnumExpr {
    @Override public Parts parts() { return Parts.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
