package dev.pawl.report.words;

import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.FileName;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** What the verdicts of a report take for granted, in one list of sentences. */
public final class Assumptions {

  private static final int MOST_NAMES = 5;

  private final Report report;
  private final List<String> sentences = new ArrayList<>();

  private Assumptions(Report report) {
    this.report = report;
  }

  /** All of them: times, starts, what was left out of traces, and what was recorded where it should have answered. */
  public static List<String> of(Report report, List<RuleOverview> rules) {
    Assumptions assumptions = new Assumptions(report);
    assumptions.resolution(rules);
    assumptions.starts();
    assumptions.reading();
    assumptions.feedback();
    assumptions.wholeness();
    return assumptions.sentences;
  }

  private void resolution(List<RuleOverview> rules) {
    Map<Long, List<String>> byResolution = new TreeMap<>();
    rules.forEach(rule -> byResolution.computeIfAbsent(rule.rule().resolution(), it -> new ArrayList<>())
        .add(rule.rule().id()));
    byResolution.forEach((resolution, ids) -> sentences.add((resolution == 0 ? "Logged times are taken as exact"
        : "A logged time may be off by " + TimeText.duration(resolution)) + ": "
        + (ids.size() == rules.size() ? "all rules" : some(ids)) + "."));
  }

  private void starts() {
    Map<String, List<String>> doubtful = new LinkedHashMap<>();
    Map<String, List<String>> stated = new LinkedHashMap<>();
    for (TraceResult trace : report.traces()) {
      for (ZoneResult zone : trace.zones()) {
        zone.start().ifPresent(start -> (start.counts() ? stated : doubtful)
            .computeIfAbsent(zone.name() + " with " + start.trains(), it -> new ArrayList<>())
            .add(FileName.of(trace.path())));
      }
    }
    Map<Integer, List<String>> alike = new TreeMap<>();
    stated.forEach((start, traces) -> alike.computeIfAbsent(traces.size(), it -> new ArrayList<>()).add(start));
    alike.forEach((traces, starts) -> sentences.add("Zones start as the rules state, taken as true in "
        + ValueText.count(traces, "trace") + ": " + String.join(", ", starts) + "."));
    doubtful.forEach((start, traces) -> sentences.add("That zone " + start.replace(" with ", " starts with ")
        + ", as the rules state, does not count in " + ValueText.count(traces.size(), "trace")
        + ", since not all flags were seen within 5 s as they were at first: " + some(traces) + "."));
  }

  private void reading() {
    Map<String, Long> counts = new LinkedHashMap<>();
    Map<String, List<String>> where = new LinkedHashMap<>();
    for (TraceResult trace : report.traces()) {
      for (Reading.Counter counter : trace.reading().counters()) {
        counts.merge(counter.label(), counter.count(), Long::sum);
        where.computeIfAbsent(counter.label(), it -> new ArrayList<>()).add(FileName.of(trace.path()));
      }
    }
    counts.forEach((label, count) -> sentences.add("Met in reading, "
        + FindingWords.times(count) + ": " + label + "; in " + some(where.get(label)) + "."));
    long overwritten = report.traces().stream().mapToLong(TraceResult::overwritten).sum();
    if (overwritten > 0) {
      sentences.add("The last value of an instant counts: " + FindingWords.overwritten(overwritten) + ".");
    }
  }

  private void feedback() {
    for (TraceResult trace : report.traces()) {
      Map<String, DepartureResult> departures = new LinkedHashMap<>();
      Map<String, List<String>> unrecorded = new LinkedHashMap<>();
      for (RuleResult rule : trace.rules()) {
        rule.seen().departures().forEach(it -> departures.putIfAbsent(it.output(), it));
        rule.seen().unrecorded().forEach(it -> unrecorded.computeIfAbsent(it, name -> new ArrayList<>())
            .add(rule.rule().id()));
      }
      departures.values().forEach(it -> sentences.add(trace.path() + ": " + FindingWords.departure(it, trace
          .timeBase()) + "; what was recorded of " + some(it.unknown()) + " counts no longer."));
      unrecorded.forEach((output, rules) -> sentences.add(trace.path() + ": no value of " + output
          + " was recorded, so that recorded answers to it count for nothing: " + some(rules) + "."));
    }
  }

  private void wholeness() {
    if (report.partial()) {
      sentences.add("The run was interrupted; what was not read is not judged.");
    }
    for (TraceResult trace : report.traces()) {
      Optional<String> failure = Optional.of(trace.reading().failure()).filter(it -> !it.isEmpty());
      failure.ifPresent(it -> sentences.add(trace.path() + (trace.rules().isEmpty() ? " was not read: "
          : " was judged only up to where reading stopped: ") + it));
    }
  }

  private static String some(List<String> names) {
    String first = String.join(", ", names.subList(0, Math.min(MOST_NAMES, names.size())));
    return names.size() > MOST_NAMES ? first + " and " + (names.size() - MOST_NAMES) + " more" : first;
  }
}
