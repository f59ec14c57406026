package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Rule;
import java.util.OptionalLong;

/**
 * When the verdict on an obligation is final.
 *
 * @param delay nanoseconds behind the trigger at the latest; empty where only a later event or the end of the trace
 *     tells
 * @param words the same in plain words
 */
record Decision(OptionalLong delay, String words) {

  static Decision of(Rule rule) {
    return rule.duty().match(when -> when.demand().accept(new OfDemand(rule.resolution())),
        always -> new Decision(OptionalLong.of(0),
            "A breach is told at the instant at which it begins; that the rule held, at the end of the trace."));
  }

  private record OfDemand(long resolution) implements Demand.Visitor<Decision> {

    @Override
    public Decision visit(Demand.AtOnce e) {
      return e.stay().map(stay -> stay(0, stay, resolution))
          .orElseGet(() -> new Decision(OptionalLong.of(0), "The verdict is final at the trigger."));
    }

    @Override
    public Decision visit(Demand.Within e) {
      long deadline = e.after() + e.within() + resolution;
      return e.stay().map(stay -> stay(deadline, stay, resolution)).orElseGet(() -> bounded(deadline, resolution));
    }

    @Override
    public Decision visit(Demand.Throughout e) {
      return bounded(e.after() + e.duration() + resolution, resolution);
    }

    @Override
    public Decision visit(Demand.Before e) {
      return new Decision(OptionalLong.empty(),
          "The verdict is final when one of the two happens; if neither does, it is open at the end of the trace.");
    }
  }

  private static Decision bounded(long delay, long resolution) {
    return new Decision(OptionalLong.of(delay), "The verdict is final " + Quantities.duration(delay)
        + " after the trigger at the latest"
        + (resolution > 0 ? ", the resolution of " + Quantities.duration(resolution) + " included." : "."));
  }

  private static Decision stay(long deadline, Demand.Stay stay, long resolution) {
    return stay.match(stayFor -> bounded(deadline + stayFor.duration() + resolution, resolution),
        until -> new Decision(OptionalLong.empty(), "A missing response is told "
            + (deadline == 0 ? "at the trigger" : Quantities.duration(deadline) + " after the trigger at the latest")
            + "; after the response the verdict is final when the release comes, or at the end of the trace."));
  }
}
