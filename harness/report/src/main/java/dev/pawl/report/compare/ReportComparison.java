package dev.pawl.report.compare;

import dev.pawl.report.compare.ReportDigest.RequirementDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.ReportDigest.TraceDigest;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What differs between two reports. Traces are paired by path, else by file name where only one on each side bears it,
 * else where each report has just one.
 *
 * @param changes every rule of paired traces whose verdict, obligations or margin changed, or that only one report has
 * @param unchanged number of rules of paired traces that did not change
 * @param onlyBefore traces that only the earlier report has
 * @param onlyAfter traces that only the later report has
 * @param differences what else differs, in sentences: rules or traces that are not the same files; a change may come
 *     from them
 * @param stated what rules say otherwise
 * @param dropped rules, requirements and what is said of these that only the earlier report has, such as
 *     {@code rule FL-07}
 */
public record ReportComparison(List<RuleChange> changes, long unchanged, List<String> onlyBefore,
    List<String> onlyAfter, List<String> differences, List<StatedChange> stated, List<String> dropped) {

  public ReportComparison {
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

  /** How many rules that a trace exercised are not exercised by it any more. */
  public long noLongerExercised() {
    return changes.stream().filter(RuleChange::noLongerExercised).count();
  }

  public static ReportComparison of(ReportDigest before, ReportDigest after) {
    List<RuleChange> changes = new ArrayList<>();
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
    long unchanged = 0;
    for (TraceDigest later : after.traces()) {
      Optional<TraceDigest> earlier = partner(later, before.traces(), after.traces()).filter(unpaired::remove);
      if (earlier.isEmpty()) {
        onlyAfter.add(later.path());
      } else {
        unchanged += compare(earlier.get(), later, changes);
        if (differ(before.hashOf(earlier.get()), after.hashOf(later))) {
          differences.add(earlier.get().path().equals(later.path())
              ? "trace " + later.path() + " was not the same file in both reports"
              : "traces " + earlier.get().path() + " and " + later.path() + " are not the same file");
        }
      }
    }
    return new ReportComparison(changes, unchanged, unpaired.stream().map(TraceDigest::path).toList(), onlyAfter,
        differences, stated(before, after), dropped(before, after));
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

  /** Adds what changed and returns how many rules did not. */
  private static long compare(TraceDigest before, TraceDigest after, List<RuleChange> changes) {
    Map<String, RuleDigest> earlier = new LinkedHashMap<>();
    before.rules().forEach(rule -> earlier.put(rule.id(), rule));
    long unchanged = 0;
    for (RuleDigest rule : after.rules()) {
      Optional<RuleDigest> old = Optional.ofNullable(earlier.remove(rule.id()));
      RuleChange change = new RuleChange(after.path(), old, Optional.of(rule));
      if (change.verdictChanged() || change.obligationsChanged() || change.marginChanged()) {
        changes.add(change);
      } else {
        unchanged++;
      }
    }
    earlier.values().forEach(rule -> changes.add(new RuleChange(after.path(), Optional.of(rule), Optional.empty())));
    return unchanged;
  }
}
