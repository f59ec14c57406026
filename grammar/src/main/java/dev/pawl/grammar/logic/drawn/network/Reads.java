package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.check.ProgramChecker;
import dev.pawl.grammar.logic.tree.Expression;
import java.util.HashSet;
import java.util.Set;

/** What an expression reads: the variables at the roots of its paths. */
public final class Reads implements Expression.Visitor<Void> {

  private final Set<String> roots = new HashSet<>();
  private boolean anything;
  private int size;

  private Reads() {}

  static Reads of(Expression expression) {
    Reads reads = new Reads();
    expression.accept(reads);
    return reads;
  }

  /** Whether an expression is a variable or a part of one, which can be read without harm. */
  public static boolean isPath(Expression expression) {
    return expression instanceof Expression.NameReference || expression instanceof Expression.DirectReference
        || expression instanceof Expression.Member member && isPath(member.owner())
        || expression instanceof Expression.Part part && isPath(part.owner());
  }

  /** The words of a path. */
  public static String spelled(Expression path) {
    return path instanceof Expression.NameReference name ? name.name().text()
        : path instanceof Expression.Member member ? spelled(member.owner()) + "." + member.name()
        : path instanceof Expression.DirectReference direct ? direct.address().text() : "";
  }

  /** Variables that it names, in upper case. */
  Set<String> roots() {
    return roots;
  }

  /** Whether it may read whatever there is. */
  boolean anything() {
    return anything;
  }

  /** Whether it is always the same. */
  boolean isFixed() {
    return roots.isEmpty() && !anything;
  }

  /** How many pieces it is made of. */
  int size() {
    return size;
  }

  private Void leaf() {
    size++;
    return null;
  }

  @Override public Void visit(Expression.IntegerLiteral e) { return leaf(); }
  @Override public Void visit(Expression.RealLiteral e) { return leaf(); }
  @Override public Void visit(Expression.BooleanLiteral e) { return leaf(); }
  @Override public Void visit(Expression.StringLiteral e) { return leaf(); }
  @Override public Void visit(Expression.TimeLiteral e) { return leaf(); }
  @Override public Void visit(Expression.QualifiedName e) { return leaf(); }

  @Override
  public Void visit(Expression.NameReference e) {
    roots.add(e.name().key());
    return leaf();
  }

  @Override
  public Void visit(Expression.DirectReference e) {
    anything = true;
    return leaf();
  }

  @Override public Void visit(Expression.Required e) { return e.operand().accept(this); }
  @Override public Void visit(Expression.Member e) { return e.owner().accept(this); }
  @Override public Void visit(Expression.Part e) { return e.owner().accept(this); }

  @Override
  public Void visit(Expression.Indexed e) {
    e.indices().forEach(index -> index.accept(this));
    return e.owner().accept(this);
  }

  @Override
  public Void visit(Expression.Call e) {
    anything |= !(e.callee() instanceof Expression.NameReference name)
        || !ProgramChecker.isStandardFunction(name.name().text());
    for (Expression.Argument argument : e.arguments()) {
      argument.match(positional -> positional.value().accept(this), input -> input.value().accept(this), output -> {
        anything = true;
        return null;
      });
    }
    return leaf();
  }

  @Override
  public Void visit(Expression.Unary e) {
    size++;
    return e.operand().accept(this);
  }

  @Override
  public Void visit(Expression.Binary e) {
    size++;
    e.left().accept(this);
    return e.right().accept(this);
  }
}
