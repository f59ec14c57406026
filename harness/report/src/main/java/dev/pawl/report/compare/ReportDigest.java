package dev.pawl.report.compare;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Requirement;
import dev.pawl.report.model.FileName;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RequirementOverview;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleResult;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * As much of a report as a comparison needs.
 *
 * @param name what the report is called in messages, usually its file
 * @param partial whether its run was interrupted
 * @param inputs the files it rests on, as far as it names them
 * @param rules what its rules say, as far as it tells
 * @param requirements what its rules serve
 */
public record ReportDigest(String name, boolean partial, List<TraceDigest> traces, List<FileDigest> inputs,
    List<StatedRule> rules, List<RequirementDigest> requirements) {

  public ReportDigest {
    traces = List.copyOf(traces);
    inputs = List.copyOf(inputs);
    rules = List.copyOf(rules);
    requirements = List.copyOf(requirements);
  }

  /** A digest of a report that does not tell what its rules say. */
  public ReportDigest(String name, boolean partial, List<TraceDigest> traces, List<FileDigest> inputs) {
    this(name, partial, traces, inputs, List.of(), List.of());
  }

  /** A digest of a report that names no files. */
  public ReportDigest(String name, boolean partial, List<TraceDigest> traces) {
    this(name, partial, traces, List.of());
  }

  /**
   * The SHA-256 of the files in a role, in the order in which they are named; those that were not worked out are left
   * out.
   */
  List<String> hashes(String role) {
    return inputs.stream().filter(it -> it.role().equals(role)
        && !it.sha256().isEmpty()).map(FileDigest::sha256).toList();
  }

  /** The SHA-256 of a trace, where it is known. */
  Optional<String> hashOf(TraceDigest trace) {
    return inputs.stream().filter(it -> it.role().equals(Input.Role.TRACE.label()) && it.path().equals(trace.path()))
        .map(FileDigest::sha256).filter(it -> !it.isEmpty()).findFirst();
  }

  /** What a comparison needs of a report that was just made. */
  public static ReportDigest of(String name, Report report) {
    List<RuleOverview> rules = RuleOverview.of(report);
    return new ReportDigest(name, report.partial(), report.traces().stream()
        .map(trace -> new TraceDigest(trace.path(), trace.rules().stream().map(ReportDigest::rule).toList())).toList(),
        report.inputs().stream().map(it -> new FileDigest(it.role().label(), it.path(), it.sha256())).toList(),
        rules.stream().map(it -> StatedRule.of(it.rule(), report.book())).toList(),
        RequirementOverview.of(report, rules).stream().map(ReportDigest::requirement).toList());
  }

  private static RequirementDigest requirement(RequirementOverview overview) {
    Requirement stated = overview.requirement();
    return new RequirementDigest(stated.id(), stated.text(), stated.source(), stated.hazard(), stated.level(),
        overview.rules().stream().map(rule -> rule.rule().id()).toList());
  }

  private static RuleDigest rule(RuleResult result) {
    return new RuleDigest(result.rule().id(), result.rule().title(), result.verdict(), result.obligations(),
        result.margin().map(margin -> new MarginDigest(margin.value(), margin.unit(), margin.atMost())),
        Stream.concat(result.broken().stream(), result.doubtful().stream()).toList());
  }

  /** One requirement, and the rules that serve it. */
  public record RequirementDigest(String id, String text, String source, String hazard, String level,
      List<String> rules) {
    public RequirementDigest {
      rules = List.copyOf(rules);
    }

    /** What is said of it, each as it is listed where the later report does not say it. */
    List<String> facts() {
      List<String> facts = new ArrayList<>();
      fact(facts, "text", text);
      fact(facts, "source", source);
      fact(facts, "hazard", hazard);
      fact(facts, "level", level);
      rules.forEach(rule -> facts.add("rule " + rule + " of requirement " + id));
      return facts;
    }

    private void fact(List<String> facts, String name, String value) {
      if (!value.isEmpty()) {
        facts.add(name + " \"" + value + "\" of requirement " + id);
      }
    }
  }

  /** One file that it rests on. */
  public record FileDigest(String role, String path, String sha256) {}

  /** One trace of it. */
  public record TraceDigest(String path, List<RuleDigest> rules) {
    public TraceDigest {
      rules = List.copyOf(rules);
    }

    /** The last part of the path. */
    String fileName() {
      return FileName.of(path);
    }
  }

  /**
   * One rule in one trace.
   *
   * @param findings those that have a picture
   */
  public record RuleDigest(String id, String title, Verdict verdict, Obligations obligations,
      Optional<MarginDigest> margin, List<FindingResult> findings) {
    public RuleDigest {
      findings = findings.stream().filter(finding -> finding.picture().isPresent()).toList();
    }
  }

  /** A margin in its shown unit. */
  public record MarginDigest(double value, String unit, boolean atMost) {}
}
