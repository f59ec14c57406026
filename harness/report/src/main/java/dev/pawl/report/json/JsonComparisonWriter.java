package dev.pawl.report.json;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.report.compare.EdgeChange;
import dev.pawl.report.compare.LineChange;
import dev.pawl.report.compare.OutputChanges;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest.MarginDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.RuleChange;
import dev.pawl.report.compare.StatedChange;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.Cautions;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Writes a comparison of two runs as JSON: the rules, the outputs' edges and the program's lines that changed. Times
 * are integer nanoseconds. Each record is an object in it, and each component a field.
 */
public final class JsonComparisonWriter {

  private JsonComparisonWriter() {}

  /** Writes the comparison and a final line break; leaves {@code out} open and flushed. */
  public static void write(String before, String after, ReportComparison rules, List<OutputChanges> outputs,
      List<LineChange> lines, Writer out) throws IOException {
    RecordWriter.writePage(new Comparison(JsonReportFormat.COMPARISON_NAME, JsonReportFormat.COMPARISON_VERSION, before,
        after, Cautions.ALL, rules.differences(), rules.onlyBefore(), rules.onlyAfter(), rules.dropped(),
        rules.stated(), rules.unchanged(), rules.changes().stream().map(Changed::of).toList(),
        outputs.stream().map(Output::of).toList(),
        lines.stream().map(Line::of).toList()), out);
  }

  private record Comparison(String format, int formatVersion, String before, String after, List<String> cautions,
      List<String> differences, List<String> onlyBefore, List<String> onlyAfter, List<String> dropped,
      List<StatedChange> stated, long unchangedRules,
      List<Changed> rules, List<Output> outputs, List<Line> lines) {}

  private record Changed(String trace, String id, String title, boolean newlyBroken, boolean noLongerExercised,
      Optional<Side> before, Optional<Side> after) {

    static Changed of(RuleChange change) {
      return new Changed(change.trace(), change.either().id(), change.either().title(), change.newlyBroken(),
          change.noLongerExercised(), change.before().map(Side::of), change.after().map(Side::of));
    }
  }

  /** A changed rule in one of the runs. */
  private record Side(Verdict verdict, long met, long alreadySo, long missed, long open, long borderline, long unknown,
      long cancelled, long unknownTriggers, long miscounted, Optional<MarginDigest> margin) {

    static Side of(RuleDigest rule) {
      Obligations ended = rule.obligations();
      return new Side(rule.verdict(), ended.met(), ended.alreadySo(), ended.missed(), ended.open(), ended.borderline(),
          ended.unknown(), ended.cancelled(), ended.unknownTriggers(), ended.miscounted(), rule.margin());
    }
  }

  private record Output(String trace, TimeBase.Kind timeBase, String signal, long unchanged, List<Edge> edges) {

    static Output of(OutputChanges output) {
      return new Output(output.trace(), output.base().kind(), output.signal(), output.unchanged(),
          output.changes().stream().map(Edge::of).toList());
    }
  }

  private record Line(Optional<ProgramPlace> before, Optional<ProgramPlace> after, LineChange.Effect effect,
      long scansBefore, long scansAfter, long scansDiffering, Optional<Instant> first,
      Optional<Instant> comparedUntil) {

    static Line of(LineChange line) {
      return new Line(line.before(), line.after(), line.effect(), line.scansBefore(), line.scansAfter(),
          line.differing(), line.first().map(Instant::of), line.limit().map(Instant::of));
    }
  }

  private record Instant(String trace, TimeBase.Kind timeBase, long timeNs) {

    static Instant of(LineChange.Instant instant) {
      return new Instant(instant.trace(), instant.base().kind(), instant.time());
    }
  }

  private record Edge(EdgeChange.Kind kind, String value, OptionalLong beforeNs, OptionalLong afterNs,
      OptionalLong shiftNs) {

    static Edge of(EdgeChange change) {
      OptionalLong none = OptionalLong.empty();
      return new Edge(change.kind(), change.value(),
          change.kind() == EdgeChange.Kind.ADDED ? none : OptionalLong.of(change.before()),
          change.kind() == EdgeChange.Kind.VANISHED ? none : OptionalLong.of(change.after()),
          change.kind() == EdgeChange.Kind.MOVED ? OptionalLong.of(change.shift()) : none);
    }
  }
}
