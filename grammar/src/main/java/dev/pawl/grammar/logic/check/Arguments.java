package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The pairing of a call's arguments with parameters: all by their place, or all by name. */
final class Arguments {

  private final Diagnostics diagnostics;

  Arguments(Diagnostics diagnostics) {
    this.diagnostics = diagnostics;
  }

  /** An argument with its parameter; the value is empty for an output that is not taken. */
  record Pair(Variable parameter, Optional<Expression> argument, boolean negated, Position position) {
    Expression value() {
      return argument.orElseThrow();
    }
  }

  /** The arguments of a call, each with the parameter it is for; what does not fit is reported and left out. */
  List<Pair> pairs(String owner, List<Variable> variables, Expression.Call call) {
    List<Variable> parameters = variables.stream().filter(Arguments::isParameter).toList();
    boolean formal = call.arguments().stream().anyMatch(argument -> !(argument instanceof Expression.Positional));
    boolean positional = call.arguments().stream().anyMatch(Expression.Positional.class::isInstance);
    if (formal && positional) {
      diagnostics.error(call.position(), "the call mixes arguments with and without names", "name all of them or none");
      return List.of();
    }
    if (positional) {
      return positional(owner, parameters, call);
    }
    List<Pair> pairs = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (Expression.Argument argument : call.arguments()) {
      named(owner, parameters, argument).ifPresent(pair -> {
        if (!seen.add(pair.parameter().key())) {
          diagnostics.error(pair.position(), pair.parameter().name() + " is given twice");
        }
        if (pair.argument().isPresent()) {
          pairs.add(pair);
        }
      });
    }
    return pairs;
  }

  private static boolean isParameter(Variable variable) {
    return variable.role() == Variable.Role.INPUT || variable.role() == Variable.Role.OUTPUT
        || variable.role() == Variable.Role.IN_OUT;
  }

  private List<Pair> positional(String owner, List<Variable> parameters, Expression.Call call) {
    List<Variable> inputs = parameters.stream().filter(parameter -> parameter.role() != Variable.Role.OUTPUT).toList();
    if (call.arguments().size() != inputs.size()) {
      diagnostics.error(call.position(), owner + " takes " + inputs.size()
          + (inputs.size() == 1 ? " argument" : " arguments") + ", here are " + call.arguments().size(), "it takes "
          + String.join(", ", inputs.stream().map(Variable::name).toList()));
      return List.of();
    }
    List<Pair> pairs = new ArrayList<>();
    for (int i = 0; i < inputs.size(); i++) {
      Expression value = ((Expression.Positional) call.arguments().get(i)).value();
      pairs.add(new Pair(inputs.get(i), Optional.of(value), false, value.position()));
    }
    return pairs;
  }

  private Optional<Pair> named(String owner, List<Variable> parameters, Expression.Argument argument) {
    boolean output = argument instanceof Expression.Output;
    Name name = output ? ((Expression.Output) argument).parameter() : ((Expression.Input) argument).parameter();
    Optional<Variable> parameter = parameters.stream().filter(variable -> variable.key().equals(name.key()))
        .findFirst();
    if (parameter.isEmpty() && (name.key().equals("EN") || name.key().equals("ENO"))) {
      diagnostics.error(name.position(), "a call with EN or ENO stands inside an expression",
          "write it in a statement of its own, or right behind :=");
      return Optional.empty();
    }
    if (parameter.isEmpty()) {
      diagnostics.error(name.position(), owner + " has no parameter " + name,
          NearName.hint(name.text(), parameters.stream().map(Variable::name).toList()).orElse(""));
      return Optional.empty();
    }
    boolean outputRole = parameter.get().role() == Variable.Role.OUTPUT;
    if (output != outputRole) {
      diagnostics.error(name.position(), name + (outputRole ? " is an output" : " is no output"),
          outputRole ? "take outputs with " + name + " => variable" : "give inputs with " + name + " := value");
      return Optional.empty();
    }
    if (argument instanceof Expression.Output taken) {
      return Optional.of(new Pair(parameter.get(), taken.target(), taken.negated(), name.position()));
    }
    return Optional.of(new Pair(parameter.get(), Optional.of(((Expression.Input) argument).value()), false,
        name.position()));
  }
}
