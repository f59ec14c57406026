package dev.pawl.report.compare;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.report.SampleRide;
import dev.pawl.report.compare.ReportDigest.FileDigest;
import dev.pawl.report.compare.ReportDigest.MarginDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.ReportDigest.TraceDigest;
import dev.pawl.report.html.ComparisonPage;
import dev.pawl.report.json.JsonReportReader;
import dev.pawl.report.json.JsonReportWriter;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Report;
import dev.pawl.report.text.ComparisonText;
import dev.pawl.report.text.Style;
import dev.pawl.report.words.Cautions;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class ReportComparisonTest {

  @Test
  void aReportIsTheSameAsItself() throws Exception {
    ReportDigest digest = read(SampleRide.report());
    assertThat(digest.traces().get(0).rules().get(0).verdict()).isEqualTo(Verdict.BROKEN);
    ReportComparison same = ReportComparison.of(digest, digest);
    assertThat(same.changes()).isEmpty();
    assertThat(same.isWorse()).isFalse();
    assertThat(same.unchanged()).isEqualTo(5);
  }

  @Test
  void everyKindOfChangeIsSaid() {
    RuleDigest same = rule("A", 3, 0, 1.0);
    ReportDigest before = new ReportDigest("before", false, List.of(new TraceDigest("old/day.csv",
        List.of(same, rule("B", 5, 0, 0.5), rule("C", 2, 0, 0.25), rule("GONE", 1, 0, 1)))));
    ReportDigest after = new ReportDigest("after", false, List.of(new TraceDigest("new/day.csv",
        List.of(same, rule("B", 4, 1, -0.25), rule("C", 2, 0, 0.2), rule("NEW", 1, 0, 1)))));
    ReportComparison comparison = ReportComparison.of(before, after);
    assertThat(comparison.isWorse()).isTrue();
    assertThat(ComparisonText.of(comparison, Style.PLAIN)).isEqualTo("""
        NEWLY BROKEN  B  title of B  new/day.csv
          verdict     held -> broken
          obligations 5 -> 4 met, 0 -> 1 missed
          margin      500 ms -> -250 ms

        WORSE  GONE  title of GONE  new/day.csv
          verdict     held -> no such rule

        C  title of C  new/day.csv
          margin      250 ms -> 200 ms

        NEW  title of NEW  new/day.csv
          verdict     no such rule -> held

        4 rules changed, 1 newly broken, 1 unchanged
        """ + String.join("\n", Cautions.ALL) + "\n");
  }

  @Test
  void aRuleThatIsNotExercisedAnyMoreIsNoProgressAndIsSaidSo() {
    ReportDigest before = new ReportDigest("before", false,
        List.of(new TraceDigest("day.csv", List.of(rule("A", 1, 1, -0.5)))));
    ReportDigest after = new ReportDigest("after", false,
        List.of(new TraceDigest("day.csv", List.of(rule("A", 0, 0, 0)))));
    ReportComparison comparison = ReportComparison.of(before, after);
    assertThat(comparison.noLongerExercised()).isEqualTo(1);
    assertThat(comparison.isWorse()).isTrue();
    assertThat(ComparisonText.of(comparison, Style.PLAIN)).startsWith("NO LONGER EXERCISED  A  title of A  day.csv\n")
        .contains("1 rule changed, 0 newly broken, 1 no longer exercised, 0 unchanged\n");
  }

  @Test
  void aBrokenRuleIsWorseThatIsBrokenMoreOftenOrByMore() throws IOException {
    ReportComparison more = broken(1, -0.5, 3, -0.5);
    ReportComparison further = broken(1, -0.5, 1, -0.6);
    for (ReportComparison worse : List.of(more, further)) {
      assertThat(worse.isWorse()).isTrue();
      assertThat(ComparisonText.of(worse, Style.PLAIN)).startsWith("WORSE  A  title of A  day.csv\n");
      StringWriter page = new StringWriter();
      ComparisonPage.write("before", "after", worse, "", page);
      assertThat(page.toString()).containsSubsequence("In short", "Otherwise worse: A.", "Margins that moved");
    }
    assertThat(broken(3, -0.6, 1, -0.5).isWorse()).isFalse();
    assertThat(broken(1, -0.5, 1, -0.5).isWorse()).isFalse();
  }

  /** Of a rule that is broken in both reports: how often, and by what margin at worst. */
  private static ReportComparison broken(int before, double margin, int after, double marginAfter) {
    return ReportComparison.of(new ReportDigest("before", false, List.of(new TraceDigest("day.csv", List.of(rule("A", 1,
        before, margin))))), new ReportDigest("after", false, List.of(new TraceDigest("day.csv", List.of(rule("A", 1,
            after, marginAfter))))));
  }

  @Test
  void rulesAreCountedOnceHoweverManyTracesTheyChangeIn() throws IOException {
    ReportDigest before = new ReportDigest("before", false, List.of(
        new TraceDigest("mon.csv", List.of(rule("A", 2, 0, 0.5), rule("B", 1, 0, 0.4), rule("C", 1, 0, 0.3))),
        new TraceDigest("tue.csv", List.of(rule("A", 2, 0, 0.6), rule("B", 1, 0, 0.4), rule("C", 1, 0, 0.3)))));
    ReportDigest after = new ReportDigest("after", false, List.of(
        new TraceDigest("mon.csv", List.of(rule("A", 1, 1, -0.5), rule("B", 1, 0, 0.4), rule("C", 2, 0, 0.3))),
        new TraceDigest("tue.csv", List.of(rule("A", 1, 1, -0.6), rule("B", 1, 0, 0.4), rule("C", 1, 0, 0.3)))));
    ReportComparison comparison = ReportComparison.of(before, after);
    assertThat(comparison.changes()).hasSize(3);
    String said = ComparisonText.of(comparison, Style.PLAIN);
    assertThat(said).contains("2 rules changed, 1 newly broken, 1 unchanged\n");
    assertThat(comparison.shifts()).as("C's nearest margin is as before").extracting(MarginShift::id)
        .containsExactly("A");
    StringWriter page = new StringWriter();
    ComparisonPage.write("before", "after", comparison, said, page);
    assertThat(page.toString()).contains("before the nearest of 2 traces 500 ms; after the nearest of 2 traces -600 ms",
        "The margins of A before and after", "2 rules changed");
    Matcher strip = Pattern.compile("class=\"(met|missed)\" d=\"([^\"]*)\"").matcher(page.toString());
    assertThat(strip.results().map(row -> row.group(1) + " " + row.group(2).replaceAll("[^M]", "")).toList())
        .as("two strokes a side, on one axis").containsExactly("met MM", "missed MM");
  }

  @Test
  void aFindingThatIsNotTheSameAnyMoreIsDrawnBeforeAndAfterOnOneAxis() throws Exception {
    ReportDigest before = read(SampleRide.drawn());
    assertThat(ReportComparison.of(before, read(SampleRide.drawn())).findings()).isEmpty();
    ReportComparison comparison = ReportComparison.of(before, read(SampleRide.drawn(724_600)));
    assertThat(comparison.findings()).extracting(FindingPair::id).containsExactly("STOP-01");
    StringWriter page = new StringWriter();
    ComparisonPage.write("before", "after", comparison, "", page);
    assertThat(page.toString()).contains("1 rule has a finding in both reports that is not the same any more",
        "in day.csv: trigger; deadline missed 500 ms later; before: came late 750 ms later; after: came late 1.15 s");
    assertThat(Pattern.compile("<text class=\"name\"[^>]*>([^<]*)<").matcher(page.toString()).results()
        .map(row -> row.group(1)).toList()).containsExactly("estop_chain", "before: lift_run", "after: lift_run");
  }

  @Test
  void findingsAreOneAndTheSameByTheirTriggers() {
    FindingResult first = SampleRide.drawn().traces().get(0).rules().get(0).broken().get(0);
    FindingResult second = SampleRide.drawn().traces().get(0).rules().get(0).broken().get(1);
    FindingResult later = SampleRide.drawn(724_600).traces().get(0).rules().get(0).broken().get(0);
    assertThat(pair(List.of(first, second), List.of(second, later)).orElseThrow().before()).isEqualTo(first);
    assertThat(pair(List.of(first), List.of(second)).orElseThrow().shift()).as("none has a like: counted from triggers")
        .isEqualTo(-60_000_000_000L);
    assertThat(pair(List.of(second), List.of())).isEmpty();
  }

  private static Optional<FindingPair> pair(List<FindingResult> before, List<FindingResult> after) {
    RuleDigest rule = rule("A", 0, 1, -1);
    return FindingPair.of(new RuleChange("day.csv", Optional.of(new RuleDigest("A", "", rule.verdict(), rule
        .obligations(), rule.margin(), before)), Optional.of(new RuleDigest("A", "", rule.verdict(), rule
            .obligations(), rule.margin(), after))));
  }

  private static ReportDigest read(Report report) throws Exception {
    StringWriter json = new StringWriter();
    JsonReportWriter.write(report, json);
    return JsonReportReader.read("report.json",
        new ByteArrayInputStream(json.toString().getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void filesThatAreNotTheSameAreSaid() {
    TraceDigest monday = new TraceDigest("monday.csv", List.of(rule("A", 1, 0, 1)));
    TraceDigest tuesday = new TraceDigest("tuesday.csv", List.of(rule("A", 1, 0, 1)));
    ReportDigest before = new ReportDigest("before", false, List.of(monday),
        List.of(new FileDigest("rules", "a.rules", "1a"), new FileDigest("trace", "monday.csv", "2b")));
    ReportDigest after = new ReportDigest("after", false, List.of(tuesday),
        List.of(new FileDigest("rules", "a.rules", "1c"), new FileDigest("trace", "tuesday.csv", "2d")));
    ReportComparison comparison = ReportComparison.of(before, after);
    assertThat(comparison.differences()).containsExactly("the two reports were judged by different rule files",
        "traces monday.csv and tuesday.csv are not the same file");
    assertThat(ComparisonText.of(comparison, Style.PLAIN))
        .startsWith("  careful     the two reports were judged by different rule files;");
    assertThat(ReportComparison.of(before, before).differences()).isEmpty();
  }

  @Test
  void tracesArePairedByPathThenByNameAndNeverGuessed() {
    TraceDigest a = new TraceDigest("x/a.csv", List.of(rule("A", 1, 0, 1)));
    TraceDigest b = new TraceDigest("x/b.csv", List.of(rule("A", 1, 0, 1)));
    TraceDigest movedA = new TraceDigest("y/a.csv", List.of(rule("A", 1, 0, 1)));
    TraceDigest other = new TraceDigest("y/c.csv", List.of(rule("A", 1, 0, 1)));
    ReportComparison comparison = ReportComparison.of(new ReportDigest("", false, List.of(a, b)),
        new ReportDigest("", false, List.of(movedA, other)));
    assertThat(comparison.unchanged()).isEqualTo(1);
    assertThat(comparison.onlyBefore()).containsExactly("x/b.csv");
    assertThat(comparison.onlyAfter()).containsExactly("y/c.csv");
    assertThat(comparison.isWorse()).as("a trace that is gone").isTrue();
  }

  private static RuleDigest rule(String id, long met, long missed, double margin) {
    Obligations obligations = new Obligations(met, missed, 0, 0, 0, 0, 0);
    return new RuleDigest(id, "title of " + id, obligations.verdict(), obligations,
        Optional.of(new MarginDigest(margin, "s", false)), List.of());
  }
}
