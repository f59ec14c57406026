package dev.pawl.grammar.rules.model;

import java.util.List;

/**
 * Everything that one or more rule files state, checked and resolved.
 *
 * @param ride the ride's name, or the empty string
 * @param resolution nanoseconds by which a logged time can be off; 0 for exact
 * @param signals all declared signals by index
 * @param zones all zones by index
 * @param rules all rules by index
 * @param requirements what the ride has to do, in the order declared
 */
public record RuleBook(String ride, long resolution, List<Signal> signals, List<Zone> zones, List<Rule> rules,
    List<Requirement> requirements) {

  /** One that states no requirement. */
  public RuleBook(String ride, long resolution, List<Signal> signals, List<Zone> zones, List<Rule> rules) {
    this(ride, resolution, signals, zones, rules, List.of());
  }

  public RuleBook {
    signals = List.copyOf(signals);
    zones = List.copyOf(zones);
    rules = List.copyOf(rules);
    requirements = List.copyOf(requirements);
  }
}
