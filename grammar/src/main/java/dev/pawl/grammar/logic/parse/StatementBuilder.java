package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/** The builder of statements; a visit yields null for an empty statement and for one that was refused. */
final class StatementBuilder extends StructuredTextBaseVisitor<Statement> {

  private final String file;
  private final LanguageChoices choices;
  private final Consumer<Diagnostic> diagnostics;
  private final ExpressionBuilder expressions;
  private final Closings closings;
  private final List<Declaration.Action> actions = new ArrayList<>();

  StatementBuilder(String file, LanguageChoices choices, Consumer<Diagnostic> diagnostics,
      ExpressionBuilder expressions, Closings closings) {
    this.file = file;
    this.choices = choices;
    this.diagnostics = diagnostics;
    this.expressions = expressions;
    this.closings = closings;
  }

  List<Statement> list(StructuredText.StatementListContext context) {
    List<Statement> statements = new ArrayList<>(context.statement().size());
    for (StructuredText.StatementContext statement : context.statement()) {
      Statement built = visit(statement);
      if (built != null) {
        statements.add(built);
      }
    }
    return statements;
  }

  @Override
  public Statement visitSimpleStatement(StructuredText.SimpleStatementContext context) {
    Expression path = expressions.visit(context.path());
    Position position = Places.of(file, context);
    if (context.operation == null) {
      if (path instanceof Expression.Call call) {
        return new Statement.Invocation(call);
      }
      if (!(path instanceof Expression.NameReference)) {
        return refuse(position, "this is neither an assignment nor a call", "assign with ':=', or call with brackets");
      }
      diagnostics.accept(Allowance.CALLS_WITHOUT_BRACKETS.found(choices, position,
          "a name by itself is neither an assignment nor a call", "assign with ':=', or call with brackets: name()"));
      return new Statement.Invocation(new Expression.Call(path, List.of(), position));
    }
    if (context.operation.getType() == StructuredText.EQUAL) {
      return refuse(Places.of(file, context.operation), "= compares and cannot stand here",
          "assignments are written with :=");
    }
    if (context.operation.getType() == StructuredText.ASSIGN_ATTEMPT) {
      return refuse(Places.of(file, context.operation), "assignment attempts with ?= are not supported",
          ForeignConstructs.REFERENCES);
    }
    return new Statement.Assignment(path, expressions.visit(context.expression()), position);
  }

  @Override
  public Statement visitDirectAssignment(StructuredText.DirectAssignmentContext context) {
    Expression target = new Expression.DirectReference(expressions.address(context.DIRECT_VARIABLE()));
    return new Statement.Assignment(target, expressions.visit(context.expression()), Places.of(file, context));
  }

  @Override
  public Statement visitIfStatement(StructuredText.IfStatementContext context) {
    closings.check(context.closing());
    List<Statement.Branch> branches = new ArrayList<>();
    branches.add(new Statement.Branch(expressions.visit(context.expression()), list(context.statementList(0)),
        Places.of(file, context)));
    for (StructuredText.ElsifContext elsif : context.elsif()) {
      branches.add(new Statement.Branch(expressions.visit(elsif.expression()), list(elsif.statementList()),
          Places.of(file, elsif)));
    }
    List<Statement> otherwise = context.ELSE() == null ? List.of() : list(context.statementList(1));
    return new Statement.If(branches, otherwise, Places.of(file, context));
  }

  @Override
  public Statement visitCaseStatement(StructuredText.CaseStatementContext context) {
    closings.check(context.closing());
    List<Statement.Choice> choices = new ArrayList<>();
    for (StructuredText.CaseElementContext element : context.caseElement()) {
      List<Statement.Label> labels = element.caseLabel().stream().map(this::label).toList();
      choices.add(new Statement.Choice(labels, list(element.statementList())));
    }
    Optional<List<Statement>> otherwise = context.ELSE() == null ? Optional.empty()
        : Optional.of(list(context.statementList()));
    return new Statement.Case(expressions.visit(context.expression()), choices, otherwise, Places.of(file, context));
  }

  private Statement.Label label(StructuredText.CaseLabelContext context) {
    Expression low = expressions.caseConstant(context.caseConstant(0));
    return new Statement.Label(low, context.caseConstant().size() < 2 ? Optional.empty()
        : Optional.of(expressions.caseConstant(context.caseConstant(1))));
  }

  @Override
  public Statement visitForStatement(StructuredText.ForStatementContext context) {
    closings.check(context.closing());
    Optional<Expression> by = context.BY() == null ? Optional.empty()
        : Optional.of(expressions.visit(context.expression(2)));
    return new Statement.For(expressions.visit(context.path()), expressions.visit(context.expression(0)),
        expressions.visit(context.expression(1)), by, list(context.statementList()), Places.of(file, context));
  }

  @Override
  public Statement visitWhileStatement(StructuredText.WhileStatementContext context) {
    closings.check(context.closing());
    return new Statement.While(expressions.visit(context.expression()), list(context.statementList()),
        Places.of(file, context));
  }

  @Override
  public Statement visitRepeatStatement(StructuredText.RepeatStatementContext context) {
    closings.check(context.closing());
    return new Statement.Repeat(list(context.statementList()), expressions.visit(context.expression()),
        Places.of(file, context));
  }

  @Override
  public Statement visitExitStatement(StructuredText.ExitStatementContext context) {
    return new Statement.Exit(Places.of(file, context));
  }

  @Override
  public Statement visitContinueStatement(StructuredText.ContinueStatementContext context) {
    return new Statement.Continue(Places.of(file, context));
  }

  @Override
  public Statement visitReturnStatement(StructuredText.ReturnStatementContext context) {
    return new Statement.Return(Places.of(file, context));
  }

  @Override
  public Statement visitStep(StructuredText.StepContext context) {
    boolean initial = context.INITIAL_STEP() != null;
    if (!initial && !context.name(0).getText().equalsIgnoreCase("STEP")) {
      return refuse(Places.of(file, context.name(0)), "expected an operator or ';' after '" + context.name(0).getText()
          + "'", "a step begins with STEP or INITIAL_STEP");
    }
    return new Statement.ChartStep(expressions.name(context.name(initial ? 0 : 1)), initial,
        context.stepControl().stream().map(this::control).toList(), Places.of(file, context));
  }

  /** {@code action(qualifier, time, indicator);}: without a qualifier it is N. */
  private Statement.Control control(StructuredText.StepControlContext context) {
    Name target = expressions.name(context.name(0));
    Optional<Name> qualifier = context.name().size() > 1 ? Optional.of(expressions.name(context.name(1)))
        : Optional.empty();
    Optional<Expression> time = context.literal().isEmpty() ? Optional.empty()
        : Optional.of(expressions.visit(context.literal(0)));
    boolean timed = qualifier.isPresent() && qualifier.get().text().matches("(?i)L|D|SD|DS|SL");
    if (time.isEmpty() && timed && context.name().size() > 2) {
      time = Optional.of(new Expression.NameReference(expressions.name(context.name(2))));
    }
    return new Statement.Control(target, qualifier, time);
  }

  @Override
  public Statement visitTransition(StructuredText.TransitionContext context) {
    StructuredText.TransitionHeadContext head = context.transitionHead();
    boolean prioritized = head.INTEGER() != null;
    int names = head.name().size();
    Optional<Name> name = names > (prioritized ? 1 : 0) ? Optional.of(expressions.name(head.name(0)))
        : Optional.empty();
    if (!context.name().getText().equalsIgnoreCase("FROM")) {
      return refuse(Places.of(file, context.name()), "expected FROM, found '" + context.name().getText() + "'",
          "a transition is written TRANSITION FROM step TO step := condition; END_TRANSITION");
    }
    long priority = prioritized && head.INTEGER().getText().length() < 18
        ? Long.parseLong(head.INTEGER().getText().replace("_", "")) : 0;
    return new Statement.ChartTransition(name, priority, names(context.stepNames(0)), names(context.stepNames(1)),
        expressions.visit(context.expression()), Places.of(file, context));
  }

  private List<Name> names(StructuredText.StepNamesContext context) {
    return context.name().stream().map(expressions::name).toList();
  }

  @Override
  public Statement visitAction(StructuredText.ActionContext context) {
    actions.add(new Declaration.Action(expressions.name(context.name()), list(context.statementList())));
    return null;
  }

  /** The actions met since the last time this was asked. */
  List<Declaration.Action> actions() {
    List<Declaration.Action> met = List.copyOf(actions);
    actions.clear();
    return met;
  }

  @Override
  public Statement visitUnsupportedObject(StructuredText.UnsupportedObjectContext context) {
    return refuse(Places.of(file, context), "objects (THIS, SUPER) are not supported", ForeignConstructs.OBJECTS);
  }

  private Statement refuse(Position position, String message, String hint) {
    diagnostics.accept(Diagnostic.error(position, message, hint));
    return null;
  }
}
