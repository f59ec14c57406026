package dev.pawl.report.compare;

import dev.pawl.report.compare.ReportDigest.RequirementDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.ReportDigest.TraceDigest;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * What differs between two reports. Traces are paired by path, else by file name where only one on each side bears it,
 * else where each report has just one.
 *
 * @param changes every rule of paired traces whose verdict, obligations or margin changed, or that only one report has
 * @param unchanged number of rules that did not change in any of the paired traces
 * @param onlyBefore traces that only the earlier report has
 * @param onlyAfter traces that only the later report has
 * @param differences what else differs, in sentences: rules or traces that are not the same files; a change may come
 *     from them
 * @param stated what rules say otherwise
 * @param dropped rules, requirements and what is said of these that only the earlier report has, such as
 *     {@code rule FL-07}
 * @param shifts margins of the rules whose verdict or nearest margin moved, in the order of the later report
 * @param findings of each rule the first finding that both reports draw, and that is not the same any more
 */
public record ReportComparison(List<RuleChange> changes, long unchanged, List<String> onlyBefore,
    List<String> onlyAfter, List<String> differences, List<StatedChange> stated, List<String> dropped,
    List<MarginShift> shifts, List<FindingPair> findings) {

  public ReportComparison {
    findings = List.copyOf(findings);
    shifts = List.copyOf(shifts);
    stated = List.copyOf(stated);
    dropped = List.copyOf(dropped);
    differences = List.copyOf(differences);
    changes = List.copyOf(changes);
    onlyBefore = List.copyOf(onlyBefore);
    onlyAfter = List.copyOf(onlyAfter);
  }

  /**
   * Whether less is shown now than before, or less was asked for: a rule is worse, gone or loosened, or a trace is
   * gone.
   */
  public boolean isWorse() {
    return changes.stream().anyMatch(RuleChange::isWorse) || !onlyBefore.isEmpty() || !dropped.isEmpty()
        || stated.stream().anyMatch(StatedChange::isSuspect);
  }

  /** How many rules changed in at least one trace. */
  public long changed() {
    return rules(change -> true);
  }

  /** How many rules are broken in a trace that did not break them before. */
  public long newlyBroken() {
    return rules(RuleChange::newlyBroken);
  }

  /** How many rules that a trace exercised are not exercised by it any more. */
  public long noLongerExercised() {
    return rules(RuleChange::noLongerExercised);
  }

  private long rules(Predicate<RuleChange> such) {
    return changes.stream().filter(such).map(change -> change.either().id()).distinct().count();
  }

  public static ReportComparison of(ReportDigest before, ReportDigest after) {
    List<TraceDigest> unpaired = new ArrayList<>(before.traces());
    List<String> onlyAfter = new ArrayList<>();
    List<String> differences = new ArrayList<>();
    if (known(before, after, "rules") && !before.hashes("rules").equals(after.hashes("rules"))) {
      differences.add("the two reports were judged by different rule files");
    }
    if (known(before, after, "bindings") && !before.hashes("bindings").equals(after.hashes("bindings"))) {
      differences.add("the traces of the two reports were read by different bindings");
    }
    if (known(before, after, "ride") && !before.hashes("ride").equals(after.hashes("ride"))) {
      differences.add("the two reports rest on different rides or scenarios");
    }
    Map<String, List<RuleChange>> pairs = new LinkedHashMap<>();
    for (TraceDigest later : after.traces()) {
      Optional<TraceDigest> earlier = partner(later, before.traces(), after.traces()).filter(unpaired::remove);
      if (earlier.isEmpty()) {
        onlyAfter.add(later.path());
      } else {
        pair(earlier.get(), later).forEach(rule -> pairs.computeIfAbsent(rule.either().id(), it -> new ArrayList<>())
            .add(rule));
        if (differ(before.hashOf(earlier.get()), after.hashOf(later))) {
          differences.add(earlier.get().path().equals(later.path())
              ? "trace " + later.path() + " was not the same file in both reports"
              : "traces " + earlier.get().path() + " and " + later.path() + " are not the same file");
        }
      }
    }
    List<List<RuleChange>> rules = List.copyOf(pairs.values());
    List<RuleChange> changes = rules.stream().flatMap(List::stream).filter(RuleChange::isChange).toList();
    long unchanged = rules.stream().filter(rule -> rule.stream().noneMatch(RuleChange::isChange)).count();
    return new ReportComparison(changes, unchanged, unpaired.stream().map(TraceDigest::path).toList(), onlyAfter,
        differences, stated(before, after), dropped(before, after), rules.stream().map(MarginShift::of)
            .flatMap(Optional::stream).toList(), rules.stream().map(rule -> rule.stream().map(FindingPair::of)
            .flatMap(Optional::stream).findFirst()).flatMap(Optional::stream).toList());
  }

  private static List<StatedChange> stated(ReportDigest before, ReportDigest after) {
    Map<String, StatedRule> earlier = new LinkedHashMap<>();
    before.rules().forEach(rule -> earlier.put(rule.id(), rule));
    return after.rules().stream().filter(rule -> earlier.containsKey(rule.id()))
        .flatMap(rule -> StatedChange.of(earlier.get(rule.id()), rule).stream()).toList();
  }

  private static List<String> dropped(ReportDigest before, ReportDigest after) {
    List<String> rules = after.rules().stream().map(StatedRule::id).toList();
    List<String> dropped = new ArrayList<>(before.rules().stream().map(StatedRule::id)
        .filter(id -> !rules.contains(id)).map(id -> "rule " + id).toList());
    Map<String, RequirementDigest> later = new LinkedHashMap<>();
    after.requirements().forEach(requirement -> later.put(requirement.id(), requirement));
    for (RequirementDigest requirement : before.requirements()) {
      if (later.containsKey(requirement.id())) {
        List<String> said = later.get(requirement.id()).facts();
        requirement.facts().stream().filter(fact -> !said.contains(fact)).forEach(dropped::add);
      } else {
        dropped.add("requirement " + requirement.id());
      }
    }
    return dropped;
  }

  private static boolean known(ReportDigest before, ReportDigest after, String role) {
    return !before.hashes(role).isEmpty() && !after.hashes(role).isEmpty();
  }

  private static boolean differ(Optional<String> before, Optional<String> after) {
    return before.isPresent() && after.isPresent() && !before.equals(after);
  }

  private static Optional<TraceDigest> partner(TraceDigest trace, List<TraceDigest> before, List<TraceDigest> after) {
    for (TraceDigest candidate : before) {
      if (candidate.path().equals(trace.path())) {
        return Optional.of(candidate);
      }
    }
    if (before.size() == 1 && after.size() == 1) {
      return Optional.of(before.get(0));
    }
    List<TraceDigest> namesakes = namesakes(trace, before);
    return namesakes.size() == 1 && namesakes(trace, after).size() == 1 ? Optional.of(namesakes.get(0))
        : Optional.empty();
  }

  private static List<TraceDigest> namesakes(TraceDigest trace, List<TraceDigest> among) {
    return among.stream().filter(it -> it.fileName().equals(trace.fileName())).toList();
  }

  /** The rules of two traces, each beside itself. */
  private static List<RuleChange> pair(TraceDigest before, TraceDigest after) {
    Map<String, RuleDigest> earlier = new LinkedHashMap<>();
    before.rules().forEach(rule -> earlier.put(rule.id(), rule));
    List<RuleChange> pairs = new ArrayList<>();
    after.rules().forEach(rule -> pairs.add(new RuleChange(after.path(), Optional.ofNullable(earlier.remove(rule.id())),
        Optional.of(rule))));
    earlier.values().forEach(rule -> pairs.add(new RuleChange(after.path(), Optional.of(rule), Optional.empty())));
    return pairs;
  }
}
