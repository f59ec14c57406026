package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import org.antlr.v4.runtime.ParserRuleContext;

/** The builder of statements; a visit yields null for an empty statement and for one that was refused. */
final class StatementBuilder extends StructuredTextBaseVisitor<Statement> {

  private final String file;
  private final Consumer<Diagnostic> diagnostics;
  private final ExpressionBuilder expressions;
  private final Closings closings;
  private final List<Declaration.Action> actions = new ArrayList<>();

  StatementBuilder(String file, Consumer<Diagnostic> diagnostics, ExpressionBuilder expressions,
      Closings closings) {
    this.file = file;
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
      return refuse(position, "this is neither an assignment nor a call",
          "assign with ':=', or call with brackets: " + context.path().getText() + "()");
    }
    if (context.operation.getType() == StructuredText.EQUAL) {
      return refuse(Places.of(file, context.operation), "= compares and cannot stand here",
          "assignments are written with :=");
    }
    if (context.operation.getType() == StructuredText.ASSIGN_ATTEMPT) {
      return refuse(Places.of(file, context.operation), "assignment attempts with ?= are not supported", "");
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
  public Statement visitUnsupportedStep(StructuredText.UnsupportedStepContext context) {
    return sequentialChart(context);
  }

  @Override
  public Statement visitUnsupportedTransition(StructuredText.UnsupportedTransitionContext context) {
    return sequentialChart(context);
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
    return refuse(Places.of(file, context), "objects (THIS, SUPER) are not supported", "");
  }

  private Statement sequentialChart(ParserRuleContext context) {
    return refuse(Places.of(file, context.getStart()), "sequential function chart elements (" + context.getStart()
        .getText()
        .toUpperCase( Locale.ROOT) + ") are not supported", "write the sequence as a CASE over a state variable");
  }

  private Statement refuse(Position position, String message, String hint) {
    diagnostics.accept(Diagnostic.error(position, message, hint));
    return null;
  }
}
