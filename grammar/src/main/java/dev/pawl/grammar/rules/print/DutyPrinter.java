package dev.pawl.grammar.rules.print;

import dev.pawl.grammar.rules.tree.Duty;
import dev.pawl.grammar.rules.tree.Expression;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a rule requires, clause by clause. */
public final class DutyPrinter {

  private final ExpressionPrinter expressions;

  public DutyPrinter(ExpressionPrinter expressions) {
    this.expressions = expressions;
  }

  /** A keyword and what follows it. */
  public record Clause(String word, String rest) {}

  /** The whole duty on one line. */
  public String line(Duty duty) {
    List<String> parts = new ArrayList<>();
    clauses(duty).forEach(clause -> parts.add(clause.word() + " " + clause.rest()));
    return String.join(" ", parts);
  }

  /** The clauses in canonical order. */
  public List<Clause> clauses(Duty duty) {
    List<Clause> clauses = new ArrayList<>();
    if (duty instanceof Duty.When when) {
      clauses.add(new Clause("when", expressions.print(when.trigger())));
      scopes(duty, clauses);
      clauses.add(new Clause("must", demand(when.demand())));
    } else if (duty instanceof Duty.Everywhere everywhere) {
      clauses.add(new Clause(everywhere.never() ? "never" : "always", expressions.print(everywhere.condition())));
      scopes(duty, clauses);
    }
    return clauses;
  }

  private void scopes(Duty duty, List<Clause> clauses) {
    for (boolean whilst : new boolean[] {true, false}) {
      duty.scopes().stream()
          .filter(scope -> scope.whilst() == whilst)
          .forEach(scope -> clauses.add(new Clause(whilst ? "while" : "unless", expressions.print(scope.condition()))));
    }
  }

  private String demand(Duty.Demand demand) {
    return expressions.print(demand.required()) + demand.timing().map(this::timing).orElse("") + demand.stay().map(this::stay).orElse("");
  }

  private String timing(Duty.Timing timing) {
    if (timing instanceof Duty.Within within) {
      return optional(" after ", within.after()) + optional(" within ", within.within());
    }
    if (timing instanceof Duty.Throughout throughout) {
      return optional(" after ", throughout.after()) + " throughout " + expressions.quantity(throughout.duration());
    }
    return " before " + expressions.print(((Duty.Before) timing).limit());
  }

  private String optional(String word, Optional<Expression> quantity) {
    return quantity.map(value -> word + expressions.quantity(value)).orElse("");
  }

  private String stay(Duty.Stay stay) {
    if (stay instanceof Duty.StayFor stayFor) {
      return ", and stay so for " + expressions.quantity(stayFor.duration());
    }
    return ", and stay so until " + expressions.print(((Duty.StayUntil) stay).release());
  }
}
