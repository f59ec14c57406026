package dev.pawl.bench.series;

import dev.pawl.bench.workload.Books;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.Locale;
import java.util.function.LongFunction;

/** Rule books of one kind in several sizes. */
final class Scales {

  private Scales() {}

  /** So many rules that all look at the lift's speed, each with a bound of its own so that none is shared. */
  static RuleBook touched(long rules) {
    return Books.of(repeat(rules, i -> rule("TOUCH-" + i, String.format(Locale.ROOT, "always lift_speed <= %.4f m/s",
        3 + i * 0.0001))));
  }

  /** The two rules and so many others over signals that never have an event. */
  static RuleBook idle(long rules) {
    String signals = repeat(rules, i -> "input idle_" + i + " : bool\n");
    String others = repeat(rules, i -> rule("IDLE-" + i, "when rises(idle_" + i + ") must not lift_run within 500 ms"));
    return Books.of(Books.file("two.rules").text() + signals + others);
  }

  /** Three rules that look back so many seconds. */
  static RuleBook windows(long seconds) {
    return Books.of(rule("WINDOW-1", "never count(rises(plc_heartbeat)) in last " + seconds + " s > 1000000")
        + rule("WINDOW-2", "never max(lift_speed) over " + seconds + " s > 5 m/s")
        + rule("WINDOW-3", "never mean(lift_speed) over " + seconds + " s > 5 m/s"));
  }

  /** One rule with about so many obligations open at once: the trigger comes three times in ten seconds on average. */
  static RuleBook open(long obligations) {
    long seconds = obligations * 10 / 3;
    return Books.of(rule("OPEN-1", "when changes(chain_current) must lift_speed > 5 m/s within " + Math.max(1, seconds)
        + " s"));
  }

  private static String rule(String id, String duty) {
    return "rule " + id + " \"Of a series\"\n  basis practice\n  severity minor\n  " + duty + "\n";
  }

  private static String repeat(long count, LongFunction<String> text) {
    StringBuilder all = new StringBuilder();
    for (long i = 1; i <= count; i++) {
      all.append(text.apply(i));
    }
    return all.toString();
  }
}
