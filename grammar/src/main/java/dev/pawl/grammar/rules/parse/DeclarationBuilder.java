package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Declaration.Direction;
import dev.pawl.grammar.rules.tree.ExampleStep;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.ForEach;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.Outcome;
import dev.pawl.grammar.rules.tree.RequirementClause;
import dev.pawl.grammar.rules.tree.TypeName;
import dev.pawl.grammar.rules.tree.ZoneClause;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.tree.TerminalNode;

/** Declarations of the parse tree as records; rules are left to {@link RuleBuilder}. */
final class DeclarationBuilder extends RulesBaseVisitor<Declaration> {

  private final Places places;
  private final List<Diagnostic> diagnostics;
  private final ExpressionBuilder expressions;
  private final RuleBuilder rules;

  DeclarationBuilder(Places places, List<Diagnostic> diagnostics) {
    this.places = places;
    this.diagnostics = diagnostics;
    this.expressions = new ExpressionBuilder(places, diagnostics);
    this.rules = new RuleBuilder(places, diagnostics, expressions);
  }

  Declaration build(RulesParser.DeclarationContext context) {
    return context.accept(this);
  }

  @Override
  public Declaration visitLanguageDeclaration(RulesParser.LanguageDeclarationContext context) {
    return new Declaration.Language(context.NUMBER().getText(), places.of(context));
  }

  @Override
  public Declaration visitRideDeclaration(RulesParser.RideDeclarationContext context) {
    return new Declaration.Ride(rules.text(context.STRING()), places.of(context.getStart()));
  }

  @Override
  public Declaration visitResolutionDeclaration(RulesParser.ResolutionDeclarationContext context) {
    return new Declaration.Resolution(expressions.build(context.quantity()), places.of(context.getStart()));
  }

  @Override
  public Declaration visitUseDeclaration(RulesParser.UseDeclarationContext context) {
    return new Declaration.Use(rules.text(context.STRING()), places.of(context.getStart()));
  }

  @Override
  public Declaration visitConstantDeclaration(RulesParser.ConstantDeclarationContext context) {
    return new Declaration.Constant(expressions.name(context.name()), expressions.build(context.expression()),
        places.of(context.getStart()));
  }

  @Override
  public Declaration visitDefineDeclaration(RulesParser.DefineDeclarationContext context) {
    List<Declaration.Parameter> parameters = context.parameters() == null ? List.of()
        : context.parameters().parameter().stream()
            .map(p -> new Declaration.Parameter(expressions.name(p.name()), Optional.ofNullable(p.valueType())
                .map(this::type)))
            .toList();
    return new Declaration.Define(expressions.name(context.name()), parameters, expressions.build(context.expression()),
        places.of(context.getStart()));
  }

  @Override
  public Declaration visitTypeDeclaration(RulesParser.TypeDeclarationContext context) {
    return new Declaration.EnumType(expressions.name(context.name()), choice(context.choice()),
        places.of(context.getStart()));
  }

  @Override
  public Declaration visitSignalDeclaration(RulesParser.SignalDeclarationContext context) {
    Direction direction = switch (context.direction().getText()) {
      case "input" -> Direction.INPUT;
      case "output" -> Direction.OUTPUT;
      default -> Direction.INTERNAL;
    };
    return new Declaration.Signals(direction, expressions.names(context.names()), type(context.valueType()),
        places.of(context.getStart()));
  }

  @Override
  public Declaration visitNeedsDeclaration(RulesParser.NeedsDeclarationContext context) {
    RulesParser.NeedContext need = context.need();
    Declaration.NeedKind kind = need.valueType() != null ? Declaration.NeedKind.VALUE
        : need.getStart().getText().equals("zone") ? Declaration.NeedKind.ZONE : Declaration.NeedKind.GROUP;
    return new Declaration.Needs(kind, expressions.names(need.names()), Optional.ofNullable(need.valueType())
        .map(this::type), places.of(context.getStart()));
  }

  @Override
  public Declaration visitZoneDeclaration(RulesParser.ZoneDeclarationContext context) {
    List<ZoneClause> clauses = context.zoneClause().stream().map(this::zoneClause).toList();
    return new Declaration.Zone(expressions.name(context.name()), clauses, places.of(context.getStart()));
  }

  private ZoneClause zoneClause(RulesParser.ZoneClauseContext context) {
    if (context instanceof RulesParser.EnterClauseContext enter) {
      return boundary(true, enter.boundary(), enter.getStart());
    }
    if (context instanceof RulesParser.LeaveClauseContext leave) {
      return boundary(false, leave.boundary(), leave.getStart());
    }
    if (context instanceof RulesParser.LengthClauseContext length) {
      return new ZoneClause.Length(expressions.build(length.quantity()), places.of(length));
    }
    if (context instanceof RulesParser.HoldsClauseContext holds) {
      return new ZoneClause.Holds(holds.NUMBER().getText(), places.of(holds));
    }
    RulesParser.StartsClauseContext starts = (RulesParser.StartsClauseContext) context;
    return new ZoneClause.StartsWith(starts.NUMBER().getText(), places.of(starts));
  }

  private ZoneClause boundary(boolean entry, RulesParser.BoundaryContext context, Token word) {
    Expression first = expressions.build(context.expression(0));
    Optional<Expression> second = Optional.ofNullable(context.expression(1)).map(expressions::build);
    return new ZoneClause.Boundary(entry, first, second, places.of(word));
  }

  private TypeName type(RulesParser.ValueTypeContext context) {
    if (context instanceof RulesParser.BoolTypeContext) {
      return new TypeName.Bool(places.of(context));
    }
    if (context instanceof RulesParser.NumberTypeContext) {
      return new TypeName.Number(places.of(context));
    }
    if (context instanceof RulesParser.ChoiceTypeContext choice) {
      return choice(choice.choice());
    }
    return new TypeName.Named(context.getText(), places.of(context));
  }

  private TypeName.OneOf choice(RulesParser.ChoiceContext context) {
    return new TypeName.OneOf(expressions.names(context.names()), places.of(context));
  }

  @Override
  public Declaration visitRuleDeclaration(RulesParser.RuleDeclarationContext context) {
    Optional<ForEach> forEach = Optional.ofNullable(context.forEach()).map(this::forEach);
    return rules.rule(context, forEach);
  }

  private ForEach forEach(RulesParser.ForEachContext context) {
    List<ForEach.Variable> variables = new ArrayList<>();
    if (context.binder() instanceof RulesParser.UniformBinderContext uniform) {
      List<Name> names = uniform.names() != null ? expressions.names(uniform.names())
          : List.of(expressions.name(uniform.name()));
      names.forEach(name -> variables.add(new ForEach.Variable(isZone(uniform.kind()), name)));
    } else if (context.binder() instanceof RulesParser.MixedBinderContext mixed) {
      for (int i = 0; i < mixed.name().size(); i++) {
        variables.add(new ForEach.Variable(isZone(mixed.kind(i)), expressions.name(mixed.name(i))));
      }
    }
    ForEach.Cases cases = context.bindings() != null ? new ForEach.Listed(tuples(context.bindings()))
        : context.name() != null ? new ForEach.OfGroup(expressions.name(context.name())) : new ForEach.EveryZone();
    return new ForEach(List.copyOf(variables), cases, places.of(context));
  }

  private List<ForEach.Tuple> tuples(RulesParser.BindingsContext context) {
    return context.binding().stream().map(this::tuple).toList();
  }

  @Override
  public Declaration visitGroupDeclaration(RulesParser.GroupDeclarationContext context) {
    return new Declaration.Group(expressions.name(context.name()), tuples(context.bindings()),
        places.of(context.getStart()));
  }

  private static boolean isZone(RulesParser.KindContext kind) {
    return kind.getText().startsWith("zone");
  }

  private ForEach.Tuple tuple(RulesParser.BindingContext context) {
    List<Name> names = context.names() != null ? expressions.names(context.names())
        : List.of(expressions.name(context.name()));
    return new ForEach.Tuple(names, places.of(context));
  }

  @Override
  public Declaration visitRequirementDeclaration(RulesParser.RequirementDeclarationContext context) {
    return new Declaration.Requirement(rules.ruleName(context.ruleName()), rules.text(context.STRING()),
        context.requirementClause().stream().map(this::requirementClause).toList(), places.of(context.getStart()));
  }

  private RequirementClause requirementClause(RulesParser.RequirementClauseContext context) {
    if (context instanceof RulesParser.WordedClauseContext worded) {
      return new RequirementClause.Worded(worded.word.getText(), rules.text(worded.STRING()),
          places.of(worded.getStart()));
    }
    RulesParser.SatisfiedClauseContext satisfied = (RulesParser.SatisfiedClauseContext) context;
    return new RequirementClause.SatisfiedBy(rules.ruleNames(satisfied.ruleNames()), places.of(satisfied.getStart()));
  }

  @Override
  public Declaration visitExampleDeclaration(RulesParser.ExampleDeclarationContext context) {
    RulesParser.OutcomeContext outcome = context.outcome();
    String verdict = (outcome.start.getText().equals("not") ? "not " : "") + outcome.name().getText();
    Optional<Expression> margin = Optional.ofNullable(outcome.number())
        .map(number -> signed(number, has(outcome.children, "-")));
    return new Declaration.Example(rules.text(context.STRING()), rules.ruleName(context.ruleName()),
        new Outcome(verdict, margin, places.of(outcome)), context.exampleStep().stream().map(this::step).toList(),
        places.of(context.getStart()));
  }

  private static boolean has(List<? extends org.antlr.v4.runtime.tree.ParseTree> children, String sign) {
    return children.stream().anyMatch(child -> child instanceof TerminalNode node && node.getText().equals(sign));
  }

  private Expression signed(RulesParser.NumberContext number, boolean negative) {
    Expression value = expressions.build(number);
    return negative ? new Expression.Negative(value, value.position()) : value;
  }

  private ExampleStep step(RulesParser.ExampleStepContext context) {
    if (context instanceof RulesParser.EndStepContext end) {
      return new ExampleStep.End(expressions.build(end.number()), places.of(end.getStart()));
    }
    RulesParser.AtStepContext at = (RulesParser.AtStepContext) context;
    List<ExampleStep.Assignment> assignments = at.assignment().stream()
        .map(a -> new ExampleStep.Assignment(expressions.name(a.name()), value(a.value())))
        .toList();
    return new ExampleStep.At(expressions.build(at.number()), assignments, places.of(at.getStart()));
  }

  private Expression value(RulesParser.ValueContext context) {
    if (context instanceof RulesParser.NumberValueContext number) {
      return signed(number.number(), has(number.children, "-"));
    }
    if (context instanceof RulesParser.NameValueContext name) {
      return new Expression.Reference(name.getText(), places.of(name));
    }
    return new Expression.Truth(context.getText().equals("true"), places.of(context));
  }
}
