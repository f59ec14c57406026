package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.rules.tree.BinaryOperator;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.WindowKind;
import dev.pawl.grammar.source.Diagnostic;
import java.util.List;
import java.util.Optional;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;

/** Expressions of the parse tree as records. */
final class ExpressionBuilder extends RulesBaseVisitor<Expression> {

  private final Places places;
  private final List<Diagnostic> diagnostics;

  ExpressionBuilder(Places places, List<Diagnostic> diagnostics) {
    this.places = places;
    this.diagnostics = diagnostics;
  }

  Expression build(ParserRuleContext context) {
    return context.accept(this);
  }

  Name name(RulesParser.NameContext context) {
    return new Name(context.getText(), places.of(context));
  }

  List<Name> names(RulesParser.NamesContext context) {
    return context.name().stream().map(this::name).toList();
  }

  @Override
  public Expression visitPrimaryExpression(RulesParser.PrimaryExpressionContext context) {
    return build(context.primary());
  }

  @Override
  public Expression visitNegative(RulesParser.NegativeContext context) {
    return new Expression.Negative(build(context.expression()), places.of(context));
  }

  @Override
  public Expression visitNegation(RulesParser.NegationContext context) {
    return new Expression.Not(build(context.expression()), places.of(context));
  }

  @Override
  public Expression visitProduct(RulesParser.ProductContext context) {
    return binary(context, context.operator, context.expression());
  }

  @Override
  public Expression visitSum(RulesParser.SumContext context) {
    return binary(context, context.operator, context.expression());
  }

  @Override
  public Expression visitComparison(RulesParser.ComparisonContext context) {
    if (context.expression(0) instanceof RulesParser.ComparisonContext inner) {
      diagnostics.add(Diagnostic.error(places.of(context.operator), "two comparisons in a row have no meaning here",
          "write a " + inner.operator.getText() + " b and b " + context.operator.getText() + " c"));
      return new Expression.Unread(places.of(context));
    }
    return binary(context, context.operator, context.expression());
  }

  @Override
  public Expression visitSince(RulesParser.SinceContext context) {
    return binary(context, context.operator, context.expression());
  }

  @Override
  public Expression visitConjunction(RulesParser.ConjunctionContext context) {
    return logic(context, context.operator, context.expression());
  }

  @Override
  public Expression visitDisjunction(RulesParser.DisjunctionContext context) {
    return logic(context, context.operator, context.expression());
  }

  @Override
  public Expression visitImplication(RulesParser.ImplicationContext context) {
    return logic(context, context.operator, context.expression());
  }

  /** In {@code a and b for 20 s} a reader cannot be sure what lasts 20 s, so parentheses must say it. */
  private Expression logic(ParserRuleContext context, Token operator, List<RulesParser.ExpressionContext> operands) {
    RulesParser.ExpressionContext right = operands.get(1);
    Token doubtful = right instanceof RulesParser.HeldForContext heldFor
        ? heldFor.getToken(LanguageWords.type("for"), 0).getSymbol()
        : right instanceof RulesParser.InLastContext inLast ? inLast.getToken(LanguageWords.type("in"), 0).getSymbol()
        : right instanceof RulesParser.SinceContext since ? since.operator : null;
    if (doubtful != null) {
      String word = doubtful.getType() == LanguageWords.type("in") ? "in last" : doubtful.getText();
      String connective = operator.getText();
      diagnostics.add(Diagnostic.error(places.of(doubtful),
          "`" + word + "` behind `" + connective + "` can be read in two ways; parentheses must say which is meant",
          "write (a " + connective + " b) " + word + " ..., or a " + connective + " (b " + word + " ...)"));
    }
    return binary(context, operator, operands);
  }

  private Expression binary(ParserRuleContext context, Token operator, List<RulesParser.ExpressionContext> operands) {
    Expression left = build(operands.get(0));
    Expression right = build(operands.get(1));
    return new Expression.Binary(BinaryOperator.of(operator.getText()).orElseThrow(), left, right, places.of(context));
  }

  @Override
  public Expression visitHeldFor(RulesParser.HeldForContext context) {
    return new Expression.HeldFor(build(context.expression()), build(context.quantity()), places.of(context));
  }

  @Override
  public Expression visitInLast(RulesParser.InLastContext context) {
    return new Expression.InLast(build(context.expression()), build(context.quantity()), places.of(context));
  }

  @Override
  public Expression visitNumberPrimary(RulesParser.NumberPrimaryContext context) {
    return build(context.number());
  }

  @Override
  public Expression visitTruthPrimary(RulesParser.TruthPrimaryContext context) {
    return new Expression.Truth(context.form.getText().equals("true"), places.of(context));
  }

  @Override
  public Expression visitTracePrimary(RulesParser.TracePrimaryContext context) {
    return new Expression.TraceEdge(context.form.getText().equals("start"), places.of(context));
  }

  @Override
  public Expression visitCountPrimary(RulesParser.CountPrimaryContext context) {
    Expression event = build(context.expression());
    RulesParser.CountWindowContext window = context.countWindow();
    return window.quantity() != null
        ? new Expression.CountInLast(event, build(window.quantity()), places.of(context))
        : new Expression.CountSince(event, build(window.primary()), places.of(context));
  }

  @Override
  public Expression visitWindowPrimary(RulesParser.WindowPrimaryContext context) {
    WindowKind kind = switch (context.form.getText()) {
      case "min" -> WindowKind.MIN;
      case "max" -> WindowKind.MAX;
      case "mean" -> WindowKind.MEAN;
      default -> throw new AssertionError("no window of " + context.form.getText());
    };
    return new Expression.Window(kind, build(context.expression()), build(context.quantity()), places.of(context));
  }

  @Override
  public Expression visitTimeSince(RulesParser.TimeSinceContext context) {
    return new Expression.TimeSince(build(context.primary()), places.of(context));
  }

  @Override
  public Expression visitCall(RulesParser.CallContext context) {
    List<Expression> arguments = context.expression().stream().map(this::build).toList();
    return new Expression.Call(name(context.name()), arguments, places.of(context));
  }

  @Override
  public Expression visitReference(RulesParser.ReferenceContext context) {
    return new Expression.Reference(context.getText(), places.of(context));
  }

  @Override
  public Expression visitGluedNames(RulesParser.GluedNamesContext context) {
    diagnostics.add(Diagnostic.error(places.of(context), "`" + context.getText()
        + "` reads as a unit, but no number stands before it",
        "to divide, put blanks around the sign: " + context.getText().replace("/", " / ")));
    return new Expression.Unread(places.of(context));
  }

  @Override
  public Expression visitGroup(RulesParser.GroupContext context) {
    return build(context.expression());
  }

  @Override
  public Expression visitNumberQuantity(RulesParser.NumberQuantityContext context) {
    return build(context.number());
  }

  @Override
  public Expression visitNameQuantity(RulesParser.NameQuantityContext context) {
    return new Expression.Reference(context.getText(), places.of(context));
  }

  @Override
  public Expression visitGroupQuantity(RulesParser.GroupQuantityContext context) {
    return build(context.expression());
  }

  @Override
  public Expression visitNumber(RulesParser.NumberContext context) {
    Optional<Name> unit = Optional.ofNullable(context.unit()).map(word -> new Name(word.getText(), places.of(word)));
    return new Expression.Number(context.NUMBER().getText(), unit, places.of(context));
  }
}
