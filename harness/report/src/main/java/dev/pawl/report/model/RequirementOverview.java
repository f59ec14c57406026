package dev.pawl.report.model;

import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Requirement;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What the rules that serve a requirement together say about it.
 *
 * @param requirement the requirement
 * @param rules those that serve it, in the order of the rule book
 */
public record RequirementOverview(Requirement requirement, List<RuleOverview> rules) {

  /** How bad a verdict is for a requirement that rests on several, the worst first. */
  private static final List<Verdict> WORST_FIRST =
      List.of(Verdict.BROKEN, Verdict.UNDECIDED, Verdict.NOT_EXERCISED, Verdict.HELD);

  public RequirementOverview {
    rules = List.copyOf(rules);
  }

  /** One for each requirement of the report's rules, in the order in which they are declared. */
  public static List<RequirementOverview> of(Report report, List<RuleOverview> rules) {
    return report.book().requirements().stream().map(requirement -> new RequirementOverview(requirement, rules.stream()
        .filter(rule -> rule.rule().satisfies().contains(requirement.id())).toList())).toList();
  }

  /** The worst verdict of its rules; empty where it has none. */
  public Optional<Verdict> verdict() {
    return WORST_FIRST.stream().filter(verdict -> rules.stream().anyMatch(rule -> rule.verdict() == verdict))
        .findFirst();
  }

  /** The traces that put at least one of its rules to the test, in order, each once. */
  public List<RuleOverview.InTrace> triedIn() {
    Stream<RuleOverview.InTrace> each = rules.stream().flatMap(rule -> rule.results().stream())
        .filter(it -> it.result().verdict() == Verdict.HELD || it.result().verdict() == Verdict.BROKEN);
    return each.sorted((one, other) -> Integer.compare(one.number(), other.number()))
        .collect(Collectors.toMap(RuleOverview.InTrace::number, it -> it, (one, other) -> one,
            LinkedHashMap::new)).values().stream().toList();
  }
}
