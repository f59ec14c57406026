package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Rule;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a rule requires, in plain sentences. */
final class DutyWords implements Demand.Visitor<List<String>> {

  private final ConditionWords conditions;

  DutyWords(ConditionWords conditions) {
    this.conditions = conditions;
  }

  List<String> say(Rule.Duty duty) {
    return duty.match(this::when, this::everywhere);
  }

  private List<String> when(Rule.When when) {
    List<String> sentences = new ArrayList<>();
    sentences.add("Each time that " + conditions.event(when.trigger())
        + when.whilst().map(q -> ", provided that at this instant " + conditions.say(q)).orElse("")
            + ", an obligation arises.");
    sentences.addAll(when.demand().accept(this));
    when.unless().ifPresent(c -> sentences.add("The obligation is dropped as soon as " + conditions.say(c)
        + ", if it has not been decided before."));
    return sentences;
  }

  private List<String> everywhere(Rule.Always always) {
    BoolExpr asked = always.never() && always.required() instanceof BoolExpr.Not not ? not.operand()
        : always.required();
    String scope = always.whilst().map(q -> " while " + conditions.say(q)).orElse("")
        + always.unless().map(c -> (always.whilst().isPresent() ? " and" : "") + " unless " + conditions.say(c))
            .orElse("");
    return List.of((always.never() ? "At no time" : "At every time") + scope + (scope.isEmpty() ? "" : ",")
        + (always.never() ? " may it be" : " it must be") + " that " + conditions.say(asked) + ".");
  }

  @Override
  public List<String> visit(Demand.AtOnce e) {
    return with("At that very instant it must be that " + conditions.say(e.required()) + ".", e.stay());
  }

  @Override
  public List<String> visit(Demand.Within e) {
    String window = e.within() == 0 ? "Exactly " + Quantities.duration(e.after()) + " later"
        : e.after() == 0 ? "Within " + Quantities.duration(e.within()) + ", that instant included,"
        : "At some time between " + Quantities.duration(e.after()) + " and "
            + Quantities.duration(e.after() + e.within())
        + " later, both included,";
    return with(window + " it must be that " + conditions.say(e.required()) + ".", e.stay());
  }

  @Override
  public List<String> visit(Demand.Throughout e) {
    String from = e.after() == 0 ? "From that instant on" : "From " + Quantities.duration(e.after()) + " later on";
    return List.of(from + ", for " + Quantities.duration(e.duration()) + " without a break, it must be that "
        + conditions.say(e.required()) + ".");
  }

  @Override
  public List<String> visit(Demand.Before e) {
    return List.of("Before, or at the same instant as, it next happens that " + conditions.say(e.limit())
        + ", it must be that " + conditions.say(e.required()) + ".");
  }

  private List<String> with(String sentence, Optional<Demand.Stay> stay) {
    if (stay.isEmpty()) {
      return List.of(sentence);
    }
    String more = stay.get().match(stayFor -> "for " + Quantities.duration(stayFor.duration()) + ".",
        until -> "until " + conditions.say(until.release()) + ", or to the end of the trace.");
    return List.of(sentence, "From then on it must stay so " + more);
  }
}
