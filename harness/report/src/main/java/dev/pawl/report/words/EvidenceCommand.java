package dev.pawl.report.words;

import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import java.util.stream.Collectors;

/** The command that shows what a report leaves out of a trace's evidence. */
public final class EvidenceCommand {

  private EvidenceCommand() {}

  /** The whole command where the trace was checked as recorded; else how to change that which made the report. */
  public static String of(Report report, TraceResult trace) {
    boolean recorded = report.inputs().stream().allMatch(it -> it.role() == Input.Role.RULES
        || it.role() == Input.Role.TRACE || it.role() == Input.Role.BINDINGS);
    if (!recorded || files(report, Input.Role.RULES, "").isEmpty()) {
      return "the same command with --findings 10000 and " + quoted(trace.path()) + " alone";
    }
    return "pawl check" + files(report, Input.Role.RULES, " --rules ") + files(report, Input.Role.BINDINGS,
        " --bindings ") + " --findings 10000 --out more " + quoted(trace.path());
  }

  private static String files(Report report, Input.Role role, String option) {
    return report.inputs().stream().filter(it -> it.role() == role).map(it -> option + quoted(it.path()))
        .collect(Collectors.joining());
  }

  private static String quoted(String path) {
    return path.matches("[\\w./:-]+") ? path : "'" + path.replace("'", "'\\''") + "'";
  }
}
