package dev.pawl.grammar.rules.print;

import dev.pawl.grammar.rules.tree.Duty;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.ProofClause;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a rule requires, clause by clause. */
public final class DutyPrinter {

  private final ExpressionPrinter expressions;

  public DutyPrinter(ExpressionPrinter expressions) {
    this.expressions = expressions;
  }

  /**
   * A keyword and what follows it.
   *
   * @param lines one line, or several where what follows is longer than was asked for
   */
  public record Clause(String word, List<String> lines, Position position) {}

  /** The whole duty on one line. */
  public String line(Duty duty) {
    List<String> parts = new ArrayList<>();
    clauses(duty, Integer.MAX_VALUE).forEach(clause -> parts.add(clause.word() + " " + clause.lines().get(0)));
    return String.join(" ", parts);
  }

  /** The clauses in the order written, with conditions longer than {@code width} broken at their connectives. */
  public List<Clause> clauses(Duty duty, int width) {
    List<Clause> clauses = new ArrayList<>();
    clauses.add(duty.match(
        when -> new Clause("when", expressions.lines(when.trigger(), width), when.position()),
        everywhere -> new Clause(everywhere.never() ? "never" : "always",
            expressions.lines(everywhere.condition(), width), everywhere.position())));
    for (Duty.Scope scope : duty.scopes()) {
      clauses.add(new Clause(scope.whilst() ? "while" : "unless", expressions.lines(scope.condition(), width),
          scope.position()));
    }
    duty.match(when -> clauses.add(new Clause("must", demand(when.demand(), width), when.demand().position())),
        everywhere -> false);
    return clauses;
  }

  /** The clauses that say what shows that the rule could have been broken. */
  public List<Clause> clauses(List<ProofClause> proof, int width) {
    return proof.stream().map(clause -> clause(clause, width)).toList();
  }

  private Clause clause(ProofClause proof, int width) {
    return proof.match(
        byTrigger -> new Clause("tried by", List.of("trigger"), proof.position()),
        trial -> new Clause(trial.ofStay() ? "stay" : "tried by", lines(trial, width), proof.position()),
        untried -> new Clause("untried", List.of("\"" + untried.reason().text() + "\""), proof.position()));
  }

  private List<String> lines(ProofClause.ByEvent trial, int width) {
    List<String> lines = new ArrayList<>(expressions.lines(trial.event(), width));
    trial.given().ifPresent(given -> {
      String whole = lines.get(lines.size() - 1) + " given " + expressions.print(given);
      if (lines.size() == 1 && whole.length() <= width) {
        lines.set(0, whole);
      } else {
        List<String> more = expressions.lines(given, width - "given ".length());
        lines.add("given " + more.get(0));
        lines.addAll(more.subList(1, more.size()));
      }
    });
    if (trial.ofStay()) {
      lines.set(0, "tried by " + lines.get(0));
    }
    return lines;
  }

  private List<String> demand(Duty.Demand demand, int width) {
    String rest = demand.timing().map(this::timing).orElse("") + demand.stay().map(this::stay).orElse("");
    List<String> lines = new ArrayList<>(expressions.lines(demand.required(), width - rest.length()));
    lines.set(lines.size() - 1, lines.get(lines.size() - 1) + rest);
    return lines;
  }

  private String timing(Duty.Timing timing) {
    return timing.match(
        within -> optional(" after ", within.after()) + optional(" within ", within.within()),
        throughout -> optional(" after ", throughout.after()) + " throughout "
            + expressions.quantity(throughout.duration()),
        before -> " before " + expressions.print(before.limit()));
  }

  private String optional(String word, Optional<Expression> quantity) {
    return quantity.map(value -> word + expressions.quantity(value)).orElse("");
  }

  private String stay(Duty.Stay stay) {
    return ", and stay so " + stay.<String>match(stayFor -> "for " + expressions.quantity(stayFor.duration()),
        until -> "until " + expressions.print(until.release()));
  }
}
