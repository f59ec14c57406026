package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.advice.StaticTruth;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Says a rule in plain words and as a formula, with what it needs and when it is decided. */
public final class RuleExplainer {

  private final RuleBook book;
  private final ConditionWords conditions;

  public RuleExplainer(RuleBook book) {
    this.book = book;
    this.conditions = new ConditionWords(book);
  }

  public Explanation explain(Rule rule) {
    Decision decision = Decision.of(rule);
    List<String> signals = RuleParts.signals(rule, book).stream().map(index -> book.signals().get(index).name())
        .toList();
    Optional<String> obstacle = obstacle(rule.duty());
    return new Explanation(rule.id(), rule.title(), rule.text(), new DutyWords(conditions).say(rule.duty()),
        new FormulaWriter(book).write(rule.duty()), decision.delay(), decision.words(), signals,
        obstacle.map(List::of).orElseGet(() -> exercise(rule)), obstacle.isEmpty());
  }

  /** Why no trace can exercise a rule, where that is so. */
  private Optional<String> obstacle(Rule.Duty duty) {
    Optional<BoolExpr> impossible = duty instanceof Rule.When when && StaticTruth.isNeverTrue(when.trigger())
        ? Optional.of(when.trigger()) : duty.whilst().filter(StaticTruth::isNeverTrue);
    if (impossible.isPresent()) {
      return Optional.of("No trace can exercise it: it can never be that " + conditions.say(impossible.get()) + ".");
    }
    if (duty instanceof Rule.When when && when.whilst().isPresent()
        && StaticTruth.isNeverTrue(new BoolExpr.And(when.trigger(), when.whilst().get()))) {
      return Optional.of("No trace can exercise it: its trigger and its while exclude each other.");
    }
    return duty.unless().filter(StaticTruth::isAlwaysTrue)
        .map(c -> "No trace can exercise it: it is always so that " + conditions.say(c) + ".");
  }

  private List<String> exercise(Rule rule) {
    Rule.Duty duty = rule.duty();
    List<String> needs = new ArrayList<>();
    if (duty instanceof Rule.When when) {
      needs.add((rule.proof().trials().isEmpty() ? "A trace exercises it by showing at least once that "
          : "An obligation arises where a trace shows that ") + conditions.event(when.trigger())
          + when.whilst().map(q -> " while " + conditions.say(q)).orElse("") + ".");
      needs.add("Signals that are unknown at that instant raise no obligation.");
    } else {
      needs.add("Any trace exercises it in which its signals become known"
          + duty.whilst().map(q -> " and in which at some time " + conditions.say(q)).orElse("") + ".");
    }
    rule.proof().trials().forEach(trial -> needs.add(trial.match(byTrigger ->
        "Each obligation that is met counts as a trial.", byEvent -> trial(duty, byEvent))));
    if (!rule.proof().untried().isEmpty()) {
      needs.add("The rule says why nothing can try it: " + rule.proof().untried() + ".");
    } else if (!rule.canBeTried()) {
      needs.add("That it holds does not show that anything asked for what it forbids: the rule does not say what "
          + "would try it.");
    }
    return needs;
  }

  private String trial(Rule.Duty duty, Proof.ByEvent trial) {
    boolean refused = !trial.ofStay() && duty.match(when -> when.demand() instanceof Demand.AtOnce, always -> false);
    return "It counts as tried only where, at least once, " + conditions.event(trial.event())
        + trial.given().map(q -> " while " + conditions.say(q)).orElse("")
        + (trial.ofStay() ? ", as long as an obligation has to stay so." : refused
            ? ", at an instant at which what it requires is not so." : ".");
  }
}
