package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Rule;
import java.util.OptionalLong;

/**
 * When the verdict on an obligation is final.
 *
 * @param delay nanoseconds behind the trigger at the latest; empty where only a later event or the end of the trace tells
 * @param words the same in plain words
 */
record Decision(OptionalLong delay, String words) {

  static Decision of(Rule rule) {
    if (rule.duty() instanceof Rule.Always) {
      return new Decision(OptionalLong.of(0),
          "A breach is told at the instant at which it begins; that the rule held, at the end of the trace.");
    }
    return of(((Rule.When) rule.duty()).demand(), rule.resolution());
  }

  private static Decision of(Demand demand, long resolution) {
    if (demand instanceof Demand.AtOnce once) {
      return once.stay().isEmpty() ? new Decision(OptionalLong.of(0), "The verdict is final at the trigger.")
          : stay(0, once.stay().get(), resolution);
    }
    if (demand instanceof Demand.Within within) {
      long deadline = within.after() + within.within() + resolution;
      return within.stay().isEmpty() ? bounded(deadline, resolution) : stay(deadline, within.stay().get(), resolution);
    }
    if (demand instanceof Demand.Throughout throughout) {
      return bounded(throughout.after() + throughout.duration() + resolution, resolution);
    }
    return new Decision(OptionalLong.empty(),
        "The verdict is final when one of the two happens; if neither does, it is open at the end of the trace.");
  }

  private static Decision bounded(long delay, long resolution) {
    return new Decision(OptionalLong.of(delay), "The verdict is final " + Quantities.duration(delay)
        + " after the trigger at the latest"
        + (resolution > 0 ? ", the resolution of " + Quantities.duration(resolution) + " included." : "."));
  }

  private static Decision stay(long deadline, Demand.Stay stay, long resolution) {
    if (stay instanceof Demand.StayFor stayFor) {
      return bounded(deadline + stayFor.duration() + resolution, resolution);
    }
    return new Decision(OptionalLong.empty(), "A missing response is told "
        + (deadline == 0 ? "at the trigger" : Quantities.duration(deadline) + " after the trigger at the latest")
        + "; after the response the verdict is final when the release comes, or at the end of the trace.");
  }
}
