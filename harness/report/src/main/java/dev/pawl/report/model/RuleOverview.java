package dev.pawl.report.model;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Tried;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;

/**
 * What all traces of a run together say about one rule.
 *
 * @param rule the rule
 * @param results what each judged trace says, in the order of the traces
 */
public record RuleOverview(Rule rule, List<InTrace> results) {

  public RuleOverview {
    results = List.copyOf(results);
  }

  /**
   * What one trace says.
   *
   * @param number which trace of the report it is, from 0
   */
  public record InTrace(int number, TraceResult trace, RuleResult result) {}

  /** One for each rule of the traces that could be judged, in the order of the rule book. */
  public static List<RuleOverview> of(Report report) {
    List<RuleOverview> overviews = new ArrayList<>();
    for (TraceResult trace : report.traces()) {
      if (!trace.rules().isEmpty()) {
        trace.rules().forEach(result -> overviews.add(of(report, overviews.size(), result.rule())));
        return overviews;
      }
    }
    return overviews;
  }

  private static RuleOverview of(Report report, int index, Rule rule) {
    List<InTrace> results = new ArrayList<>();
    for (int i = 0; i < report.traces().size(); i++) {
      TraceResult trace = report.traces().get(i);
      if (!trace.rules().isEmpty()) {
        results.add(new InTrace(i, trace, trace.rules().get(index)));
      }
    }
    return new RuleOverview(rule, results);
  }

  /** The obligations of all traces, counted together. */
  public Obligations obligations() {
    return sum(results.stream().map(each -> each.result().obligations()));
  }

  /** Obligations counted together. */
  public static Obligations sum(Stream<Obligations> all) {
    return all.reduce(new Obligations(0, 0, 0, 0, 0, 0, 0), (sum, more) -> new Obligations(sum.met() + more.met(),
        sum.missed() + more.missed(), sum.open() + more.open(), sum.borderline() + more.borderline(), sum.unknown()
            + more.unknown(), sum.cancelled() + more.cancelled(), sum.unknownTriggers() + more.unknownTriggers(),
        sum.miscounted() + more.miscounted(), sum.alreadySo() + more.alreadySo()));
  }

  /** How often each of its trials occurred in all traces together. */
  public List<Tried> tried() {
    List<Tried> tried = new ArrayList<>();
    for (int trial = 0; trial < rule.proof().trials().size(); trial++) {
      long times = 0;
      for (InTrace each : results) {
        times += each.result().seen().tried().get(trial).times();
      }
      tried.add(new Tried(times, OptionalLong.empty()));
    }
    return tried;
  }

  /**
   * Whether it is held without anything that shows that it was ever asked for what it forbids, and gives no reason why
   * nothing could.
   */
  public boolean isHeldUntried() {
    return verdict() == Verdict.HELD && !rule.canBeTried() && rule.proof().untried().isEmpty();
  }

  /** Broken if any trace breaks it, not exercised only if no trace exercises it. */
  public Verdict verdict() {
    return obligations().verdict(tried());
  }

  /**
   * The trace with the smallest margin, the first among equals; empty where no trace has one. Of a rule that broke it
   * says by how much, so that one of what was met counts for nothing there.
   */
  public Optional<InTrace> closest() {
    boolean broken = verdict() == Verdict.BROKEN;
    Optional<InTrace> closest = Optional.empty();
    for (InTrace each : results) {
      if (each.result().margin().isPresent() && !(broken && margin(each).value() >= 0)
          && (closest.isEmpty() || margin(each).value() < margin(closest.get()).value())) {
        closest = Optional.of(each);
      }
    }
    return closest;
  }

  private static MarginResult margin(InTrace each) {
    return each.result().margin().orElseThrow();
  }

  /** In how many traces it has the verdict. */
  public long count(Verdict verdict) {
    return results.stream().filter(each -> each.result().verdict() == verdict).count();
  }
}
