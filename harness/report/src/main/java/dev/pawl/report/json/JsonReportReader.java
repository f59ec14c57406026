package dev.pawl.report.json;

import dev.pawl.engine.Finding;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.explain.Limit;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.compare.ReportDigest.FileDigest;
import dev.pawl.report.compare.ReportDigest.MarginDigest;
import dev.pawl.report.compare.ReportDigest.RequirementDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.ReportDigest.TraceDigest;
import dev.pawl.report.compare.StatedRule;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Picture;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.LongStream;

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
    byte[] text = in.readAllBytes();
    Optional<Head> head = RecordReader.read(name, text, Head.class, List.of());
    if (head.flatMap(Head::format).filter(JsonReportFormat.NAME::equals).isEmpty()) {
      throw new ReportFormatException(name
          + ": not a report of pawl; expected a report.json that 'pawl check --out' wrote");
    }
    long version = head.get().formatVersion().orElse(0);
    if (version < JsonReportFormat.OLDEST_READ || version > JsonReportFormat.VERSION) {
      throw new ReportFormatException(name + ": report version " + version + " is not known; this pawl reads versions "
          + JsonReportFormat.OLDEST_READ + " to " + JsonReportFormat.VERSION);
    }
    Body body = RecordReader.read(name, text, Body.class, List.of()).orElseThrow();
    List<TraceDigest> traces = body.traces().stream()
        .map(trace -> new TraceDigest(trace.path(), trace.rules().stream().map(RuleIn::digest).toList())).toList();
    if (traces.stream().flatMap(trace -> trace.rules().stream()).anyMatch(rule -> isNegative(rule.obligations()))) {
      throw new ReportFormatException(name
          + ": a count of obligations is negative; expected a report.json that 'pawl check --out' wrote");
    }
    return new ReportDigest(name, body.partial(), traces, body.inputs(), stated(body), body.requirements()
        .orElse(List.of()));
  }

  /** What the rules say: most stands with the first trace that was judged, what was resolved in the overview. */
  private static List<StatedRule> stated(Body body) {
    List<OverviewIn> overview = body.overview().orElse(List.of());
    return body.traces().stream().map(TraceIn::rules).filter(rules -> !rules.isEmpty()).findFirst().orElse(List.of())
        .stream().map(rule -> rule.stated(overview.stream().filter(each -> each.id().equals(rule.id())).findFirst()))
        .toList();
  }

  private static boolean isNegative(Obligations ended) {
    return LongStream.of(ended.met(), ended.missed(), ended.open(), ended.borderline(), ended.unknown(),
        ended.cancelled(), ended.unknownTriggers(), ended.miscounted(), ended.alreadySo()).anyMatch(count -> count < 0);
  }

  /** What says whether the rest can be read. */
  private record Head(Optional<String> format, OptionalLong formatVersion) {}

  private record Body(boolean partial, List<TraceIn> traces, List<FileDigest> inputs,
      Optional<List<OverviewIn>> overview, Optional<List<RequirementDigest>> requirements) {}

  /** The first versions of the format did not tell what rules come to with all names resolved. */
  private record OverviewIn(String id, Optional<String> formula, Optional<List<Limit>> limits,
      Optional<List<String>> zones) {}

  private record TraceIn(String path, List<RuleIn> rules) {}

  private record RuleIn(String id, String title, Verdict verdict, Ended obligations, Optional<MarginDigest> margin,
      Optional<Rule.Severity> severity, Optional<String> basis, Optional<String> text, OptionalLong resolutionNs,
      Optional<SeenIn> seen, Optional<List<FoundIn>> findings) {

    StatedRule stated(Optional<OverviewIn> resolved) {
      List<String> trials = seen.flatMap(SeenIn::tried).orElse(List.of()).stream().map(TrialIn::by).toList();
      return new StatedRule(id, title, text, severity, basis, resolutionNs, trials,
          resolved.flatMap(OverviewIn::formula), resolved.flatMap(OverviewIn::limits).orElse(List.of()),
          resolved.flatMap(OverviewIn::zones).orElse(List.of()));
    }

    RuleDigest digest() {
      return new RuleDigest(id, title, verdict, obligations.counts(), margin, findings.orElse(List.of()).stream()
          .map(FoundIn::finding).toList());
    }
  }

  /** A finding without its evidence. The first versions of the format did not tell what is drawn of it. */
  private record FoundIn(Finding.Kind kind, TimeIn trigger, TimeIn time, boolean justAfter, Optional<TimeIn> deadline,
      Optional<TimeIn> lateResponse, Optional<Picture> picture) {

    FindingResult finding() {
      return new FindingResult(kind, trigger.ns(), time.ns(), justAfter, number(deadline), number(lateResponse),
          List.of(), picture);
    }

    private static OptionalLong number(Optional<TimeIn> time) {
      return time.isPresent() ? OptionalLong.of(time.get().ns()) : OptionalLong.empty();
    }
  }

  private record TimeIn(long ns) {}

  private record SeenIn(Optional<List<TrialIn>> tried) {}

  private record TrialIn(String by) {}

  /**
   * How obligations ended. The first version of the format did not tell those that were so already, or rested on a
   * wrong count.
   */
  private record Ended(long met, OptionalLong alreadySo, long missed, long open, long borderline, long unknown,
      long cancelled, long unknownTriggers, OptionalLong miscounted) {

    Obligations counts() {
      return new Obligations(met, missed, open, borderline, unknown, cancelled, unknownTriggers, miscounted.orElse(0),
          alreadySo.orElse(0));
    }
  }
}
