package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.tree.Expression;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** The names that stand in an expression, in the order written. */
final class NamesWritten implements Expression.Visitor<List<String>> {

  static final NamesWritten INSTANCE = new NamesWritten();

  private NamesWritten() {}

  private List<String> in(Expression... parts) {
    return Stream.of(parts).flatMap(part -> part.accept(this).stream()).toList();
  }

  @Override public List<String> visit(Expression.Number e) { return List.of(); }
  @Override public List<String> visit(Expression.Truth e) { return List.of(); }
  @Override public List<String> visit(Expression.Unread e) { return List.of(); }
  @Override public List<String> visit(Expression.TraceEdge e) { return List.of(); }
  @Override public List<String> visit(Expression.Reference e) { return List.of(e.name()); }
  @Override public List<String> visit(Expression.Negative e) { return in(e.operand()); }
  @Override public List<String> visit(Expression.Not e) { return in(e.operand()); }
  @Override public List<String> visit(Expression.Binary e) { return in(e.left(), e.right()); }
  @Override public List<String> visit(Expression.HeldFor e) { return in(e.operand(), e.duration()); }
  @Override public List<String> visit(Expression.InLast e) { return in(e.operand(), e.duration()); }
  @Override public List<String> visit(Expression.CountInLast e) { return in(e.event(), e.duration()); }
  @Override public List<String> visit(Expression.CountSince e) { return in(e.event(), e.anchor()); }
  @Override public List<String> visit(Expression.TimeSince e) { return in(e.event()); }
  @Override public List<String> visit(Expression.Window e) { return in(e.operand(), e.duration()); }

  @Override
  public List<String> visit(Expression.Call e) {
    List<String> names = new ArrayList<>(List.of(e.function().text()));
    names.addAll(in(e.arguments().toArray(Expression[]::new)));
    return names;
  }
}
