package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.print.DutyPrinter;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.ProofClause;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What shows that one rule could have been broken, with its names bound. */
final class ProofChecker {

  private final Context context;
  private final ExpressionChecker expressions;
  private final DutyPrinter printer;
  private final List<Proof.Trial> trials = new ArrayList<>();
  private String untried = "";

  ProofChecker(Context context, ExpressionChecker expressions, DutyPrinter printer) {
    this.context = context;
    this.expressions = expressions;
    this.printer = printer;
  }

  /** What is stated, without what is wrong with it, which is told. */
  Proof check(Declaration.Rule rule) {
    for (ProofClause stated : rule.proof()) {
      stated.match(byTrigger -> byTrigger(rule, byTrigger), trial -> byEvent(rule, trial), reason -> untried(rule,
          reason));
    }
    return new Proof(trials, untried);
  }

  private boolean byTrigger(Declaration.Rule rule, ProofClause.ByTrigger stated) {
    return rule.duty().match(when -> trials.add(new Proof.ByTrigger()), everywhere -> {
      context.problems.error(stated.position(), "this rule has no trigger that could try it",
          "name the event that asks for what it forbids");
      return false;
    });
  }

  private boolean untried(Declaration.Rule rule, ProofClause.Untried reason) {
    if (rule.proof().size() > 1) {
      context.problems.error(reason.position(), "`untried` stands beside another statement of what tries the rule",
          "say either what tries it, or why nothing can");
    } else if (reason.reason().text().isBlank()) {
      context.problems.error(reason.position(), "`untried` gives no reason",
          "write in quotes why nothing can try the rule");
    }
    untried = reason.reason().text();
    return true;
  }

  private boolean byEvent(Declaration.Rule rule, ProofClause.ByEvent trial) {
    boolean stays = rule.duty().match(when -> when.demand().stay().isPresent(), everywhere -> false);
    if (trial.ofStay() && !stays) {
      context.problems.error(trial.position(), "nothing has to stay so in this rule", "write tried by without stay");
      return false;
    }
    Optional<BoolExpr> event = condition(trial.event());
    Optional<Optional<BoolExpr>> given = trial.given().isEmpty() ? Optional.of(Optional.empty())
        : condition(trial.given().get()).map(Optional::of);
    if (event.isPresent() && given.isPresent()) {
      DutyPrinter.Clause clause = printer.clauses(List.of(trial), Integer.MAX_VALUE).get(0);
      trials.add(new Proof.ByEvent(event.get(), given.get(), trial.ofStay(), clause.word() + " " + clause.lines()
          .get(0)));
    }
    return true;
  }

  private Optional<BoolExpr> condition(Expression expression) {
    return expressions.condition(expression).map(Checked.Condition::expression);
  }
}
