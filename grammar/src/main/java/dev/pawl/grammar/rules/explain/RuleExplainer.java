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
    Optional<String> obstacle = obstacle(rule.duty());
    return new Explanation(rule.id(), rule.title(), rule.text(), new DutyWords(conditions).say(rule.duty()),
        new FormulaWriter(book).write(rule.duty()), decision.delay(), decision.words(), signals(rule),
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
    return "It counts as tried only where, at least once, " + asking(trial)
        + (trial.ofStay() ? ", as long as an obligation has to stay so." : refused(duty, trial).isPresent()
            ? ", at an instant at which what it requires is not so." : ".");
  }

  private String asking(Proof.ByEvent trial) {
    return conditions.event(trial.event()) + trial.given().map(q -> " while " + conditions.say(q)).orElse("");
  }

  /** What must not be so for a trial to count. */
  private static Optional<BoolExpr> refused(Rule.Duty duty, Proof.ByEvent trial) {
    return duty.match(when -> !trial.ofStay() && when.demand() instanceof Demand.AtOnce demand
        ? Optional.of(demand.required()) : Optional.empty(), always -> Optional.empty());
  }

  /**
   * What has to happen for a rule to be put to the test, a clause each: its stated trials in their order, or what
   * raises an obligation where it states none. Empty where nothing can.
   */
  public List<String> waysToTry(Rule rule) {
    if (obstacle(rule.duty()).isPresent()) {
      return List.of();
    }
    List<Proof.Trial> trials = rule.proof().trials().isEmpty() ? List.of(new Proof.ByTrigger())
        : rule.proof().trials();
    return trials.stream().map(trial -> trial.match(byTrigger -> raising(rule), byEvent -> asking(byEvent)
        + (byEvent.ofStay() ? " while " + rule.id() + " has to stay so" : refused(rule.duty(), byEvent)
            .map(required -> ", at an instant at which " + not(required)).orElse(""))))
        .toList();
  }

  private String raising(Rule rule) {
    return rule.duty().match(when -> conditions.event(when.trigger())
        + when.whilst().map(q -> " while " + conditions.say(q)).orElse("")
        + (when.demand() instanceof Demand.Within demand
            ? ", and just before it " + not(demand.required()) : ""),
        always -> "there is a value of " + String.join(", ", signals(rule))
            + always.whilst().map(q -> " while " + conditions.say(q)).orElse(""));
  }

  private String not(BoolExpr condition) {
    return conditions.say(condition instanceof BoolExpr.Not not ? not.operand() : new BoolExpr.Not(condition));
  }

  private List<String> signals(Rule rule) {
    return RuleParts.signals(rule, book).stream().map(index -> book.signals().get(index).name()).toList();
  }
}
