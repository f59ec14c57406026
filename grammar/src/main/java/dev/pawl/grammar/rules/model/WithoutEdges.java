package dev.pawl.grammar.rules.model;

/**
 * An event with {@code p} in place of its {@code rises(p)} and {@code falls(p)}: the state that turns in it.
 */
final class WithoutEdges implements BoolExpr.Question<BoolExpr> {

  private WithoutEdges() {}

  static BoolExpr of(BoolExpr event) {
    return event.accept(new WithoutEdges());
  }

  @Override public BoolExpr otherwise(BoolExpr e) { return e; }
  @Override public BoolExpr visit(BoolExpr.Rises e) { return e.operand(); }
  @Override public BoolExpr visit(BoolExpr.Falls e) { return e.operand(); }
  @Override public BoolExpr visit(BoolExpr.Not e) { return new BoolExpr.Not(of(e.operand())); }
  @Override public BoolExpr visit(BoolExpr.And e) { return new BoolExpr.And(of(e.left()), of(e.right())); }
  @Override public BoolExpr visit(BoolExpr.Or e) { return new BoolExpr.Or(of(e.left()), of(e.right())); }
}
