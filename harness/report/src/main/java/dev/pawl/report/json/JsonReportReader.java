package dev.pawl.report.json;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.compare.ReportDigest.FileDigest;
import dev.pawl.report.compare.ReportDigest.MarginDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.ReportDigest.TraceDigest;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads back what a comparison needs of a report.json. */
public final class JsonReportReader {

  private JsonReportReader() {}

  /**
   * The digest of a report.
   *
   * @param name what the report is called in messages
   * @throws ReportFormatException if the text is not JSON, not a report, or of a version that is not known
   */
  public static ReportDigest read(String name, InputStream in) throws IOException, ReportFormatException {
    JsonNode root = JsonNode.read(name, in);
    if (!root.has("format") || !JsonReportFormat.NAME.equals(root.at("format").text())) {
      throw new ReportFormatException(name + ": not a report of pawl; expected a report.json that 'pawl check --out' wrote");
    }
    long version = root.at("formatVersion").count();
    if (version < JsonReportFormat.OLDEST_READ || version > JsonReportFormat.VERSION) {
      throw new ReportFormatException(name + ": report version " + version + " is not known; this pawl reads versions "
          + JsonReportFormat.OLDEST_READ + " to " + JsonReportFormat.VERSION);
    }
    List<TraceDigest> traces = new ArrayList<>();
    for (JsonNode trace : root.at("traces").items()) {
      traces.add(trace(trace));
    }
    List<FileDigest> inputs = new ArrayList<>();
    for (JsonNode input : root.at("inputs").items()) {
      inputs.add(new FileDigest(input.at("role").text(), input.at("path").text(), input.at("sha256").text()));
    }
    return new ReportDigest(name, root.at("partial").truth(), traces, inputs);
  }

  private static TraceDigest trace(JsonNode trace) throws ReportFormatException {
    List<RuleDigest> rules = new ArrayList<>();
    for (JsonNode rule : trace.at("rules").items()) {
      rules.add(rule(rule));
    }
    return new TraceDigest(trace.at("path").text(), rules);
  }

  private static RuleDigest rule(JsonNode rule) throws ReportFormatException {
    Optional<MarginDigest> margin = Optional.empty();
    if (rule.has("margin")) {
      JsonNode node = rule.at("margin");
      margin = Optional.of(new MarginDigest(node.at("value").number(), node.at("unit").text(), node.at("atMost").truth()));
    }
    return new RuleDigest(rule.at("id").text(), rule.at("title").text(), verdict(rule.at("verdict")),
        obligations(rule.at("obligations")), margin);
  }

  private static Verdict verdict(JsonNode node) throws ReportFormatException {
    for (Verdict verdict : Verdict.values()) {
      if (verdict.label().equals(node.text())) {
        return verdict;
      }
    }
    throw node.wrong("held, broken, not-exercised or undecided");
  }

  private static Obligations obligations(JsonNode node) throws ReportFormatException {
    return new Obligations(node.at("met").count(), node.at("missed").count(), node.at("open").count(),
        node.at("borderline").count(), node.at("unknown").count(), node.at("cancelled").count(),
        node.at("unknownTriggers").count(), node.has("miscounted") ? node.at("miscounted").count() : 0, node.has("alreadySo") ? node.at("alreadySo").count() : 0);
  }
}
