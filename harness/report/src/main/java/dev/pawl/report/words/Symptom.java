package dev.pawl.report.words;

import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;

/**
 * One thing that went wrong in a trace, whichever rule or zone told it.
 *
 * @param time nanoseconds, when it was so
 * @param rule index of the rule; empty for a zone
 * @param subject the rule's identifier, or the zone
 * @param sentence what happened, without a full stop
 */
public record Symptom(long time, OptionalInt rule, String subject, String sentence) {

  /** Those kept of a trace, the first first. */
  public static List<Symptom> of(TraceResult trace) {
    List<Symptom> symptoms = new ArrayList<>();
    for (RuleResult rule : trace.rules()) {
      for (FindingResult finding : rule.broken()) {
        symptoms.add(new Symptom(finding.time(), OptionalInt.of(rule.rule().index()), rule.rule().id(),
            FindingWords.sentence(rule.rule(), finding, trace.timeBase())));
      }
    }
    for (ZoneResult zone : trace.zones()) {
      for (ZoneResult.Tracking finding : zone.findings()) {
        symptoms.add(new Symptom(finding.time(), OptionalInt.empty(), "zone " + zone.name(),
            FindingWords.tracking(finding.kind())));
      }
    }
    symptoms.sort(Comparator.comparingLong(Symptom::time));
    return symptoms;
  }
}
