package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * EN and ENO of a call, as the statements that mean the same: where EN is false nothing is called or assigned and ENO
 * is false, else ENO is true (IEC 61131-3:2013, clause 6.6.1.6, from memory; that what is assigned keeps its value is
 * a choice).
 */
final class Enabling {

  private Enabling() {}

  static boolean isEnable(Expression.Argument argument) {
    return argument instanceof Expression.Input input && input.parameter().key().equals("EN");
  }

  static boolean isDone(Expression.Argument argument) {
    return argument instanceof Expression.Output output && output.parameter().key().equals("ENO");
  }

  /** The same call, whose ENO is kept for the time until the next. */
  static Expression.Call remembering(Expression.Call call, Name instance) {
    List<Expression.Argument> arguments = new ArrayList<>(call.arguments());
    arguments.add(new Expression.Output(new Name("ENO", call.position()), false,
        Optional.of(new Expression.NameReference(instance.done()))));
    return new Expression.Call(call.callee(), arguments, call.position());
  }

  /** The call without EN and ENO, put into a statement, inside the IF that they stand for. */
  static Statement of(Expression.Call call, Function<Expression.Call, Statement> statement) {
    Expression condition = new Expression.BooleanLiteral(true, call.position());
    List<Statement> done = new ArrayList<>();
    List<Statement> refused = new ArrayList<>();
    List<Expression.Argument> others = new ArrayList<>();
    for (Expression.Argument argument : call.arguments()) {
      if (isEnable(argument)) {
        condition = ((Expression.Input) argument).value();
      } else if (isDone(argument)) {
        Expression.Output eno = (Expression.Output) argument;
        Optional<Expression> target = eno.target();
        target.ifPresent(variable -> {
          done.add(assign(variable, !eno.negated()));
          refused.add(assign(variable, eno.negated()));
        });
      } else {
        others.add(argument);
      }
    }
    List<Statement> run = new ArrayList<>();
    run.add(statement.apply(new Expression.Call(call.callee(), others, call.position())));
    run.addAll(done);
    return new Statement.If(List.of(new Statement.Branch(condition, run, call.position())), refused, call.position());
  }

  private static Statement assign(Expression variable, boolean truth) {
    return new Statement.Assignment(variable, new Expression.BooleanLiteral(truth, variable.position()),
        variable.position());
  }
}
