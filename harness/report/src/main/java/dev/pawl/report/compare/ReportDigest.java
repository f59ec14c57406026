package dev.pawl.report.compare;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import java.util.List;
import java.util.Optional;

/**
 * As much of a report as a comparison needs.
 *
 * @param name what the report is called in messages, usually its file
 * @param partial whether its run was interrupted
 */
public record ReportDigest(String name, boolean partial, List<TraceDigest> traces) {

  public ReportDigest {
    traces = List.copyOf(traces);
  }

  /** What a comparison needs of a report that was just made. */
  public static ReportDigest of(String name, Report report) {
    return new ReportDigest(name, report.partial(), report.traces().stream()
        .map(trace -> new TraceDigest(trace.path(), trace.rules().stream().map(ReportDigest::rule).toList())).toList());
  }

  private static RuleDigest rule(RuleResult result) {
    return new RuleDigest(result.rule().id(), result.rule().title(), result.verdict(), result.obligations(),
        result.margin().map(margin -> new MarginDigest(margin.value(), margin.unit(), margin.atMost())));
  }

  /** One trace of it. */
  public record TraceDigest(String path, List<RuleDigest> rules) {
    public TraceDigest {
      rules = List.copyOf(rules);
    }

    /** The last part of the path. */
    String fileName() {
      return path.substring(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
    }
  }

  /** One rule in one trace. */
  public record RuleDigest(String id, String title, Verdict verdict, Obligations obligations, Optional<MarginDigest> margin) {}

  /** A margin in its shown unit. */
  public record MarginDigest(double value, String unit, boolean atMost) {}
}
