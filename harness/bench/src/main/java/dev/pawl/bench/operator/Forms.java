package dev.pawl.bench.operator;

import java.util.LinkedHashMap;
import java.util.Map;

/** One rule for each operator and form of the language, over signals of the campaign trace that change often. */
final class Forms {

  /** The duty of a rule by the name of what it shows. */
  private static final Map<String, String> DUTIES = duties();

  /** Whole rule texts, by name. */
  static final Map<String, String> RULES = rules();

  private Forms() {}

  private static Map<String, String> duties() {
    Map<String, String> forms = new LinkedHashMap<>();
    forms.put("always, comparison", "always lift_speed <= 2.9 m/s");
    forms.put("never, and or not", "never (brake_1_close and not brake_2_close) or (brake_3_close and brake_4_close)");
    forms.put("arithmetic", "always lift_speed * 2 + 1 m/s <= 6.9 m/s");
    forms.put("rises", "always not rises(plc_heartbeat)");
    forms.put("changes", "always not changes(chain_current)");
    forms.put("for", "never plc_heartbeat for 5 s");
    forms.put("in last", "always plc_heartbeat in last 5 s");
    forms.put("since", "always brake_1_close since plc_heartbeat");
    forms.put("count in last", "never count(rises(plc_heartbeat)) in last 10 s > 3");
    forms.put("count since", "never count(rises(plc_heartbeat)) since gate_release > 3");
    forms.put("time since", "never time since rises(plc_heartbeat) > 10 s");
    forms.put("max over", "never max(lift_speed) over 10 s > 2.95 m/s");
    forms.put("swing", "never max(lift_speed) over 10 s - min(lift_speed) over 10 s > 0.88 m/s");
    forms.put("mean over", "never mean(lift_speed) over 10 s > 2.7 m/s");
    forms.put("rate", "never rate(lift_speed) > 2 m/s2");
    forms.put("previous", "never lift_speed - previous(lift_speed) > 0.5 m/s");
    forms.put("speed", "never speed(zone_1_flag, zone_2_flag, 6 m) > 2 m/s");
    forms.put("occupied", "never occupied(block_1)");
    forms.put("must", "when rises(plc_heartbeat) must brake_1_close");
    forms.put("within", "when rises(plc_heartbeat) must brake_1_close within 5 s");
    forms.put("within, stay for", "when rises(plc_heartbeat) must brake_1_close within 5 s, and stay so for 2 s");
    forms.put("within, stay until",
        "when rises(plc_heartbeat) must brake_1_close within 5 s, and stay so until rises(reset_button)");
    forms.put("throughout", "when rises(plc_heartbeat) must lift_speed <= 2.9 m/s throughout 5 s");
    forms.put("before", "when rises(plc_heartbeat) must rises(brake_1_close) before rises(brake_2_close)");
    forms.put("unless, while",
        "when rises(plc_heartbeat) while brake_1_close unless reset_button must brake_2_close within 5 s");
    return forms;
  }

  private static Map<String, String> rules() {
    Map<String, String> rules = new LinkedHashMap<>();
    DUTIES.forEach((name, duty) -> rules.put(name, "rule FORM-01 \"One form\"\n  basis practice\n  severity minor\n  "
        + duty + "\n"));
    return rules;
  }
}
