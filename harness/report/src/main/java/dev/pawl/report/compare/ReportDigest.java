package dev.pawl.report.compare;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
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
