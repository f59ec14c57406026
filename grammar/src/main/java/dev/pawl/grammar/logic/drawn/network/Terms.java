package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Expression.BinaryOperator;
import dev.pawl.grammar.logic.tree.Expression.UnaryOperator;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Position;
import java.math.BigInteger;
import java.util.List;
import java.util.Optional;

/** The making of expressions and statements. */
public final class Terms {

  private Terms() {}

  public static Expression name(Name name) {
    return new Expression.NameReference(name);
  }

  public static Expression truth(boolean value, Position position) {
    return new Expression.BooleanLiteral(value, position);
  }

  public static Expression number(long value, Position position) {
    return new Expression.IntegerLiteral(Optional.empty(), BigInteger.valueOf(value), position);
  }

  public static Expression not(Expression operand, Position position) {
    if (operand instanceof Expression.BooleanLiteral literal) {
      return truth(!literal.value(), position);
    }
    return new Expression.Unary(UnaryOperator.NOT, operand, position);
  }

  public static Expression and(Expression left, Expression right, Position position) {
    return isTrue(left) ? right : isTrue(right) ? left
        : new Expression.Binary(BinaryOperator.AND, left, right, position);
  }

  public static Expression or(Expression left, Expression right, Position position) {
    return isTrue(left) ? left : isTrue(right) ? right
        : new Expression.Binary(BinaryOperator.OR, left, right, position);
  }

  /** What has to be of an elementary type; messages call it so. */
  public static Expression required(Expression operand, String type, String what) {
    return operand instanceof Expression.BooleanLiteral ? operand : new Expression.Required(operand, type, what);
  }

  public static boolean isTrue(Expression expression) {
    return expression instanceof Expression.BooleanLiteral literal && literal.value();
  }

  public static Statement assign(Expression target, Expression value, Position position) {
    return new Statement.Assignment(target, value, position);
  }

  /** The statements if the condition holds; without a condition where it always does. */
  public static List<Statement> when(Expression condition, List<Statement> body, Position position) {
    return isTrue(condition) ? body
        : List.of(new Statement.If(List.of(new Statement.Branch(condition, body, position)), List.of(), position));
  }
}
