package dev.pawl.bench.peers;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The rules as an expert would ask for them in SQL: each query reads only the rows of its rule's signals, and finds
 * states and next events by as-of joins rather than by searching. Each gives one row: how many obligations arose and
 * how many were missed.
 *
 * <p>Of the forty rules these are the ones that SQL says in a few lines. The others (running extremes and time
 * averages, counts since an event, durations in a trigger, cancelled obligations) cost a query more, not less.
 */
final class SqlRules {

  /**
   * A rule.
   *
   * @param id its identifier in Pawl's rule file
   * @param query gives one row of two counts; the first is null where only the second can be compared
   */
  record Rule(String id, String query) {}

  private SqlRules() {}

  /** The two rules that every peer judges. */
  static List<Rule> two() {
    return List.of(
        new Rule("STOP-01", response(falls("estop_chain"), state("lift_run", "value = 0"),
            becomes("lift_run", "value = 0"), 500)),
        new Rule("ZONE-01", occupied(rises("gate_release"), 1)));
  }

  /** As many of the forty as SQL says with ease, the two included. */
  static List<Rule> many() {
    List<Rule> rules = new ArrayList<>(two());
    rules.add(new Rule("STOP-03",
        response(rises("estop_chain"), state("lift_run", "value = 1"), becomes("lift_run", "value = 1"), 1_000)));
    rules.add(new Rule("STOP-04", response(rises("lift_run"), state("estop_chain", "value = 1"), nothing(), 0)));
    rules.add(new Rule("STOP-05",
        throughout(falls("estop_chain"), state("gate_release", "value = 1"), becomes("gate_release", "value = 1"),
            1_000)));
    rules.add(new Rule("ZONE-02", occupied(rises("gate_release"), 7)));
    for (int block = 1; block <= 6; block++) {
      rules.add(new Rule("BLOCK-0" + block, occupied(rises(flag(block)), block + 1)));
    }
    for (int block = 1; block <= 4; block++) {
      rules.add(new Rule("PASS-0" + block, response(rises(flag(block)), nothing(), rises(flag(block + 1)), 3_290)));
    }
    for (int flag = 1; flag <= 3; flag++) {
      rules.add(new Rule("ORDER-0" + flag, before(rises(flag(flag)), rises(flag(flag + 1)), rises(flag(flag + 2)))));
    }
    rules.add(new Rule("FLAG-01", held(flag(1), 598)));
    rules.add(new Rule("FLAG-05", held(flag(5), 598)));
    for (int brake = 1; brake <= 4; brake++) {
      String close = "brake_" + brake + "_close";
      rules.add(new Rule("BRAKE-0" + brake,
          response(rises(flag(brake + 1)), state(close, "value = 1"), becomes(close, "value = 1"), 20_000)));
    }
    rules.add(new Rule("SPEED-01", stretches("SELECT t, value > 3 AS bad FROM trace WHERE signal = 'lift_speed'")));
    rules.add(new Rule("SPEED-02", stretches(together("lift_speed", "lift_run", "x < 2.1 AND w = 1"))));
    rules.add(new Rule("SPEED-03",
        throughout(rises(flag(3)), state("lift_speed", "value > 2.98"), becomes("lift_speed", "value > 2.98"), 2_000)));
    rules.add(new Rule("SPEED-06", stretches("""
        SELECT t, (value - before) / (t - since) * 1000 > 500 AS bad
        FROM (SELECT t, value, lag(value) OVER (ORDER BY t) AS before, lag(t) OVER (ORDER BY t) AS since
          FROM (SELECT t, value, lag(value) OVER (ORDER BY t) AS old FROM trace WHERE signal = 'lift_speed')
          WHERE old IS DISTINCT FROM value)""")));
    rules.add(new Rule("CHAIN-01", stretches(together("chain_current", "lift_run", "x > 249.8 AND w = 1"))));
    rules.add(new Rule("BEAT-02", response(falls("plc_heartbeat"), nothing(), rises("plc_heartbeat"), 20_000)));
    rules.add(new Rule("TRAIN-01", stretches("SELECT b.t, 6000.0 / (b.t - a.t) > 2.221 AS bad FROM (" + rises(flag(5))
        + ") b ASOF JOIN (" + rises(flag(4)) + ") a ON b.t > a.t")));
    return rules;
  }

  private static String flag(int number) {
    return "zone_" + number + "_flag";
  }

  private static String rises(String signal) {
    return edge(signal, "value = 1 AND before = 0");
  }

  private static String falls(String signal) {
    return edge(signal, "value = 0 AND before = 1");
  }

  private static String edge(String signal, String which) {
    return "SELECT t FROM (SELECT t, value, lag(value) OVER (ORDER BY t) AS before FROM trace WHERE signal = '" + signal
        + "') WHERE " + which;
  }

  private static String state(String signal, String condition) {
    return "SELECT t, " + condition + " AS holds FROM trace WHERE signal = '" + signal + "'";
  }

  private static String becomes(String signal, String condition) {
    return "SELECT t FROM trace WHERE signal = '" + signal + "' AND " + condition;
  }

  private static String nothing() {
    return "SELECT 0::BIGINT AS t, false AS holds WHERE false";
  }

  /** Met where the state holds at the trigger or an event comes in time. */
  private static String response(String trigger, String state, String event, long within) {
    return """
        SELECT count(*), count(*) FILTER (WHERE NOT coalesce(s.holds, false) AND NOT coalesce(e.t <= g.t + %4$d, false)
          AND g.t + %4$d <= (SELECT max(t) FROM trace))
        FROM (%1$s) g ASOF LEFT JOIN (%2$s) s ON g.t >= s.t ASOF LEFT JOIN (%3$s) e ON g.t <= e.t
        """.formatted(trigger, state, event, within);
  }

  /** Missed where the bad state holds at the trigger or comes before the end. */
  private static String throughout(String trigger, String bad, String turnsBad, long duration) {
    return """
        SELECT count(*), count(*) FILTER (WHERE coalesce(s.holds, false) OR coalesce(e.t <= g.t + %4$d, false))
        FROM (%1$s) g ASOF LEFT JOIN (%2$s) s ON g.t >= s.t ASOF LEFT JOIN (%3$s) e ON g.t <= e.t
        """.formatted(trigger, bad, turnsBad, duration);
  }

  private static String occupied(String trigger, int block) {
    return """
        SELECT count(*), count(*) FILTER (WHERE z.trains > 0)
        FROM (%s) g ASOF LEFT JOIN (SELECT t, sum(d) OVER (ORDER BY t) AS trains
          FROM (SELECT t, 1 AS d FROM (%s) UNION ALL SELECT t, -1 AS d FROM (%s))) z ON g.t >= z.t
        """.formatted(trigger, rises(flag(block)), rises(flag(block + 1)));
  }

  private static String before(String trigger, String first, String second) {
    return """
        SELECT count(*), count(*) FILTER (WHERE d.t IS NOT NULL AND coalesce(s.t > d.t, true))
        FROM (%s) g ASOF LEFT JOIN (%s) s ON g.t <= s.t ASOF LEFT JOIN (%s) d ON g.t < d.t
        """.formatted(trigger, first, second);
  }

  private static String held(String signal, long longest) {
    return "SELECT NULL, count(*) FILTER (WHERE value = 1 AND next - t > " + longest
        + ") FROM (SELECT t, value, lead(t) OVER (ORDER BY t) AS next FROM trace WHERE signal = '" + signal + "')";
  }

  /** Counts the maximal stretches of rows that are bad. */
  private static String stretches(String rows) {
    return "SELECT NULL, count(*) FILTER (WHERE bad AND NOT coalesce(before, false)) FROM (SELECT bad, lag(bad) OVER "
        + "(ORDER BY t) AS before"
        + " FROM (" + rows + "))";
  }

  /** Two signals side by side at each time at which either has an event. */
  private static String together(String x, String w, String bad) {
    return String.format(Locale.ROOT, """
        SELECT t, %3$s AS bad FROM (
          SELECT t, last_value(x IGNORE NULLS) OVER (ORDER BY t) AS x, last_value(w IGNORE NULLS) OVER (ORDER BY t) AS w
          FROM (SELECT t, max(value) FILTER (WHERE signal = '%1$s') AS x, max(value) FILTER (WHERE signal = '%2$s') AS w
            FROM trace WHERE signal IN ('%1$s', '%2$s') GROUP BY t))""", x, w, bad);
  }
}
