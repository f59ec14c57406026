package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Duty;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.ForEach;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.ProofClause;
import dev.pawl.grammar.rules.tree.RuleClause;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import org.antlr.v4.runtime.tree.TerminalNode;

/** Rules of the parse tree as records. */
final class RuleBuilder {

  private final Places places;
  private final List<Diagnostic> diagnostics;
  private final ExpressionBuilder expressions;

  RuleBuilder(Places places, List<Diagnostic> diagnostics, ExpressionBuilder expressions) {
    this.places = places;
    this.diagnostics = diagnostics;
    this.expressions = expressions;
  }

  Declaration.Rule rule(RulesParser.RuleDeclarationContext context, Optional<ForEach> forEach) {
    List<RuleClause> clauses = context.ruleClause().stream().map(this::clause).toList();
    Position position = places.of(context.ruleName());
    return new Declaration.Rule(forEach, ruleName(context.ruleName()), text(context.STRING()), clauses,
        duty(context.duty()), context.proof().stream().map(this::proof).toList(), forEach.map(ForEach::position)
        .orElse(position));
  }

  /** A quoted text without its quotes. */
  Name text(TerminalNode string) {
    String quoted = string.getText();
    return new Name(quoted.substring(1, quoted.length() - 1), places.of(string.getSymbol()));
  }

  /** An identifier such as {@code STOP-01}, whose parts must stand together. */
  Name ruleName(RulesParser.RuleNameContext context) {
    String text = context.getText();
    Position position = places.of(context);
    int length = context.getStop().getStopIndex() - context.getStart().getStartIndex() + 1;
    if (length != text.codePointCount(0, text.length())) {
      diagnostics.add(Diagnostic.error(position, "an identifier is one word without blanks", "write " + text));
    }
    return new Name(text, position);
  }

  List<Name> ruleNames(RulesParser.RuleNamesContext context) {
    return context.ruleName().stream().map(this::ruleName).toList();
  }

  private RuleClause clause(RulesParser.RuleClauseContext context) {
    Position position = places.of(context.getStart());
    if (context instanceof RulesParser.BasisClauseContext basis) {
      boolean practice = !(basis.basis().getChild(0) instanceof TerminalNode first
          && first.getSymbol().getType() == RulesParser.STRING);
      return new RuleClause.Basis(practice, Optional.ofNullable(basis.basis().STRING()).map(this::text), position);
    }
    if (context instanceof RulesParser.SeverityClauseContext severity) {
      return new RuleClause.Severity(expressions.name(severity.name()), position);
    }
    if (context instanceof RulesParser.ToleranceClauseContext tolerance) {
      return new RuleClause.Tolerance(expressions.build(tolerance.quantity()), position);
    }
    if (context instanceof RulesParser.SatisfiesClauseContext satisfies) {
      return new RuleClause.Satisfies(ruleNames(satisfies.ruleNames()), position);
    }
    RulesParser.ResolutionClauseContext resolution = (RulesParser.ResolutionClauseContext) context;
    return new RuleClause.Resolution(expressions.build(resolution.quantity()), position);
  }

  private Duty duty(RulesParser.DutyContext context) {
    Position position = places.of(context.getStart());
    if (context instanceof RulesParser.WhenDutyContext when) {
      return new Duty.When(expressions.build(when.expression()), scopes(when.scope()), demand(when.demand()), position);
    }
    RulesParser.EverywhereDutyContext everywhere = (RulesParser.EverywhereDutyContext) context;
    return new Duty.Everywhere(everywhere.form.getText().equals("never"), expressions.build(everywhere.expression()),
        scopes(everywhere.scope()), position);
  }

  private ProofClause proof(RulesParser.ProofContext context) {
    Position position = places.of(context.getStart());
    if (context instanceof RulesParser.UntriedProofContext untried) {
      return new ProofClause.Untried(text(untried.STRING()), position);
    }
    boolean ofStay = context.getStart().getType() == LanguageWords.STAY;
    RulesParser.ChallengeContext challenge = ((RulesParser.TriedProofContext) context).challenge();
    if (challenge.expression().isEmpty()) {
      if (ofStay) {
        diagnostics.add(Diagnostic.error(position, "the trigger comes before anything has to stay so",
            "name the event that asks for what must stay so to end"));
      }
      return new ProofClause.ByTrigger(position);
    }
    Optional<Expression> given = challenge.expression().size() > 1
        ? Optional.of(expressions.build(challenge.expression(1)))
        : Optional.empty();
    return new ProofClause.ByEvent(ofStay, expressions.build(challenge.expression(0)), given, position);
  }

  private List<Duty.Scope> scopes(List<RulesParser.ScopeContext> contexts) {
    return contexts.stream()
        .map(scope -> new Duty.Scope(scope.form.getText().equals("while"), expressions.build(scope.expression()),
            places.of(scope.getStart())))
        .toList();
  }

  private Duty.Demand demand(RulesParser.DemandContext context) {
    Expression required = expressions.build(context.expression());
    Optional<Duty.Timing> timing = Optional.ofNullable(context.timing()).map(this::timing);
    Optional<Duty.Stay> stay = Optional.ofNullable(context.stay()).map(this::stay);
    return new Duty.Demand(required, timing, stay, places.of(context));
  }

  private Duty.Timing timing(RulesParser.TimingContext context) {
    Position position = places.of(context.getStart());
    if (context instanceof RulesParser.WithinTimingContext within) {
      return new Duty.Within(Optional.empty(), Optional.of(expressions.build(within.quantity())), position);
    }
    if (context instanceof RulesParser.ThroughoutTimingContext throughout) {
      return new Duty.Throughout(Optional.empty(), expressions.build(throughout.quantity()), position);
    }
    if (context instanceof RulesParser.BeforeTimingContext before) {
      return new Duty.Before(expressions.build(before.expression()), position);
    }
    RulesParser.AfterTimingContext after = (RulesParser.AfterTimingContext) context;
    Optional<Expression> delay = Optional.of(expressions.build(after.quantity(0)));
    Optional<Expression> window = Optional.ofNullable(after.quantity(1)).map(expressions::build);
    return after.form != null && after.form.getText().equals("throughout")
        ? new Duty.Throughout(delay, window.orElseThrow(), position)
        : new Duty.Within(delay, window, position);
  }

  private Duty.Stay stay(RulesParser.StayContext context) {
    Position position = places.of(context);
    return context.quantity() != null
        ? new Duty.StayFor(expressions.build(context.quantity()), position)
        : new Duty.StayUntil(expressions.build(context.expression()), position);
  }
}
