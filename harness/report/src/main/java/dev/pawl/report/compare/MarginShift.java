package dev.pawl.report.compare;

import dev.pawl.report.compare.ReportDigest.MarginDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A rule whose verdict or nearest margin moved, with its margins in all paired traces of either report.
 *
 * @param id the rule's identifier
 * @param title its title, as the later report has it
 */
public record MarginShift(String id, String title, List<MarginDigest> before, List<MarginDigest> after) {

  /** What moved of a rule; empty where its verdicts and its nearest margin are as before, or a side has no margin. */
  static Optional<MarginShift> of(List<RuleChange> ofRule) {
    RuleDigest some = ofRule.get(0).either();
    MarginShift shift = new MarginShift(some.id(), some.title(), margins(ofRule.stream().map(RuleChange::before)),
        margins(ofRule.stream().map(RuleChange::after)));
    boolean drawable = !shift.before.isEmpty() && !shift.after.isEmpty()
        && Stream.concat(shift.before.stream(), shift.after.stream()).map(MarginDigest::unit).distinct().count() == 1;
    boolean moved = drawable && shift.before.get(0).value() != shift.after.get(0).value();
    return drawable && (moved || ofRule.stream().anyMatch(RuleChange::verdictChanged)) ? Optional.of(shift)
        : Optional.empty();
  }

  private static List<MarginDigest> margins(Stream<Optional<RuleDigest>> sides) {
    return sides.flatMap(Optional::stream).flatMap(rule -> rule.margin().stream())
        .sorted(Comparator.comparingDouble(MarginDigest::value)).toList();
  }
}
