package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Rule;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a rule requires, in plain sentences. */
final class DutyWords {

  private final ConditionWords conditions;

  DutyWords(ConditionWords conditions) {
    this.conditions = conditions;
  }

  List<String> say(Rule.Duty duty) {
    return duty instanceof Rule.When when ? when(when) : everywhere((Rule.Always) duty);
  }

  private List<String> when(Rule.When when) {
    List<String> sentences = new ArrayList<>();
    sentences.add("Each time that " + conditions.event(when.trigger())
        + when.whilst().map(q -> ", provided that at this instant " + conditions.say(q)).orElse("") + ", an obligation arises.");
    sentences.addAll(demand(when.demand()));
    when.unless().ifPresent(c -> sentences.add("The obligation is dropped as soon as " + conditions.say(c)
        + ", if it has not been decided before."));
    return sentences;
  }

  private List<String> everywhere(Rule.Always always) {
    BoolExpr asked = always.never() && always.required() instanceof BoolExpr.Not not ? not.operand() : always.required();
    String scope = always.whilst().map(q -> " while " + conditions.say(q)).orElse("")
        + always.unless().map(c -> (always.whilst().isPresent() ? " and" : "") + " unless " + conditions.say(c)).orElse("");
    return List.of((always.never() ? "At no time" : "At every time") + scope + (scope.isEmpty() ? "" : ",")
        + (always.never() ? " may it be" : " it must be") + " that " + conditions.say(asked) + ".");
  }

  private List<String> demand(Demand demand) {
    if (demand instanceof Demand.AtOnce once) {
      return with("At that very instant it must be that " + conditions.say(once.required()) + ".", once.stay());
    }
    if (demand instanceof Demand.Within within) {
      String window = within.within() == 0 ? "Exactly " + Quantities.duration(within.after()) + " later"
          : within.after() == 0 ? "Within " + Quantities.duration(within.within()) + ", that instant included,"
          : "At some time between " + Quantities.duration(within.after()) + " and "
          + Quantities.duration(within.after() + within.within()) + " later, both included,";
      return with(window + " it must be that " + conditions.say(within.required()) + ".", within.stay());
    }
    if (demand instanceof Demand.Throughout throughout) {
      String from = throughout.after() == 0 ? "From that instant on" : "From " + Quantities.duration(throughout.after())
          + " later on";
      return List.of(from + ", for " + Quantities.duration(throughout.duration()) + " without a break, it must be that "
          + conditions.say(throughout.required()) + ".");
    }
    Demand.Before before = (Demand.Before) demand;
    return List.of("Before, or at the same instant as, it next happens that " + conditions.say(before.limit())
        + ", it must be that " + conditions.say(before.required()) + ".");
  }

  private List<String> with(String sentence, Optional<Demand.Stay> stay) {
    if (stay.isEmpty()) {
      return List.of(sentence);
    }
    String more = stay.get() instanceof Demand.StayFor stayFor
        ? "From then on it must stay so for " + Quantities.duration(stayFor.duration()) + "."
        : "From then on it must stay so until " + conditions.say(((Demand.StayUntil) stay.get()).release())
            + ", or to the end of the trace.";
    return List.of(sentence, more);
  }
}
