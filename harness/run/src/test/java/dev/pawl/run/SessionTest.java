package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.engine.Verdict;
import dev.pawl.report.json.JsonReportReader;
import dev.pawl.report.json.JsonReportWriter;
import dev.pawl.report.json.JsonResult;
import dev.pawl.report.model.JudgedSource;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Judging as a program of one's own does it: rules and traces of an invented small ride, with and without its logic.
 */
class SessionTest {

  private static final Path GUIDE = Path.of("../../DEVELOPERS.md");
  private static final Path THIS = Path.of("src/test/java/dev/pawl/run/SessionTest.java");

  @TempDir
  private Path folder;

  @BeforeEach
  void makeTheRide() throws IOException {
    write("ride.rules", """
        ride "Little Ratchet"
        resolution 1 ms
        input  stop_pressed : bool
        output lift_run     : bool
        rule STOP-01 "the lift stops when the stop is pressed"
          severity critical
          basis practice
          when rises(stop_pressed)
          must not lift_run within 300 ms
        """);
    write("monday.csv", trace("stop_pressed", "lift_run", 5200));
    write("tuesday.csv", trace("stop_pressed", "lift_run", 5400));
    write("prompt.st", logic("lift_run := NOT stop_pressed;"));
    write("stuck.st", logic("lift_run := TRUE;"));
  }

  private static String trace(String stop, String lift, int stopped) {
    return "time_ms,signal,value\n0," + stop + ",0\n0," + lift + ",1\n5000," + stop + ",1\n" + stopped + "," + lift
        + ",0\n9000," + stop + ",0\n";
  }

  private static String logic(String statement) {
    return "PROGRAM Lift\nVAR_INPUT stop_pressed : BOOL; END_VAR\nVAR_OUTPUT lift_run : BOOL; END_VAR\n" + statement
        + "\nEND_PROGRAM\n";
  }

  private void write(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  /** What a report says that it rests on is what was judged, or there is no report. */
  @Test
  void aFileThatChangesMeanwhileIsNoticed() throws Exception {
    RuleFiles rules = RuleFiles.load(List.of(path("ride.rules")));
    Session session = Session.by(rules).withOptions(new SessionOptions(1, 20, true, true));
    List<EventSource> traces = session.traces(List.of(path("monday.csv"), path("tuesday.csv")));
    SessionListener during = new SessionListener() {
      @Override
      public Progress progress() {
        longer("monday.csv");
        return Progress.NONE;
      }
    };
    assertThatThrownBy(() -> session.judge(traces, during)).as("while it is judged").isInstanceOf(RunException.class)
        .hasMessageStartingWith(path("monday.csv") + ": changed after it was read");
    SessionListener after = new SessionListener() {
      @Override
      public void judged(TraceResult result) {
        longer("tuesday.csv");
      }
    };
    assertThatThrownBy(() -> session.judge(traces, after)).as("before it is hashed").isInstanceOf(RunException.class)
        .hasMessageStartingWith(path("tuesday.csv") + ": changed after it was read");
    assertThat(session.judge(traces).inputs()).as("left in peace").hasSize(3);
    longer("ride.rules");
    assertThatThrownBy(() -> session.judge(traces)).as("rules").isInstanceOf(RunException.class)
        .hasMessageStartingWith(path("ride.rules") + ": changed after it was read");
  }

  private void longer(String name) {
    try {
      Files.writeString(folder.resolve(name), "\n", StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void judgesRecordedTraces() throws Exception {
    RuleFiles rules = RuleFiles.load(List.of(path("ride.rules")));
    Session session = Session.by(rules);
    Report report = session.judge(session.traces(List.of(path("monday.csv"), path("tuesday.csv"))));
    assertThat(report.hasFailure()).isFalse();
    assertThat(report.traces().get(0).count(Verdict.HELD)).isEqualTo(1);
    assertThat(report.traces().get(1).count(Verdict.BROKEN)).isEqualTo(1);
    try (Writer out = Files.newBufferedWriter(folder.resolve("report.json"))) {
      JsonReportWriter.write(report, out);
    }
    try (InputStream in = Files.newInputStream(folder.resolve("report.json"))) {
      assertThat(JsonReportReader.read("report", in).partial()).isFalse();
    }
    assertThat(report.inputs()).extracting(input -> Path.of(input.path()).getFileName().toString())
        .containsExactly("ride.rules", "monday.csv", "tuesday.csv");
  }

  @Test
  void judgesLogicInTheLoop() {
    RuleFiles rules = RuleFiles.load(List.of(path("ride.rules")));
    LogicFiles logic = LogicFiles.load(List.of(path("prompt.st")));
    Session session = Session.by(rules).withController(LogicController.of(rules, logic, LogicSettings.DEFAULT));
    Report report = session.judge(session.traces(List.of(path("tuesday.csv"))));
    assertThat(report.count(Verdict.HELD)).isEqualTo(1);
    LogicFiles stuck = LogicFiles.load(List.of(path("stuck.st")));
    Session other = session.withController(LogicController.of(rules, stuck, LogicSettings.DEFAULT));
    assertThat(other.judge(other.traces(List.of(path("tuesday.csv")))).count(Verdict.BROKEN)).isEqualTo(1);
    assertThat(report.cautions()).singleElement().asString().contains("a recording, which cannot react");
  }

  @Test
  void readsTagsByBindings() throws IOException {
    write("tags.bindings", "signals\n  stop_pressed from \"S1\"\n  lift_run from \"K1\"\n");
    write("tags.csv", trace("S1", "K1", 5100));
    RuleFiles rules = RuleFiles.load(List.of(path("ride.rules")));
    Session session = Session.by(rules).withBindings(BindingsFiles.load(path("tags.bindings"), rules.book()));
    assertThat(session.judge(session.traces(List.of(path("tags.csv")))).count(Verdict.HELD)).isEqualTo(1);
  }

  @Test
  void tellsResultsInTheOrderOfTheTracesAndEndsWhenAsked() {
    Session session = Session.by(RuleFiles.load(List.of(path("ride.rules"))));
    List<String> told = new ArrayList<>();
    SessionListener untilTheFirst = new SessionListener() {
      @Override
      public void judged(TraceResult result) {
        told.add(Path.of(result.path()).getFileName().toString());
      }

      @Override
      public void leftOut(int sources) {
        told.add(sources + " left out");
      }

      @Override
      public boolean isEndWanted() {
        return !told.isEmpty();
      }
    };
    Session oneByOne = session.withOptions(new SessionOptions(1, 5, false, false));
    Report report = oneByOne.judge(oneByOne.traces(List.of(path("tuesday.csv"), path("monday.csv"))), untilTheFirst);
    assertThat(told).containsExactly("tuesday.csv", "1 left out");
    assertThat(report.partial()).isTrue();
    assertThat(report.traces()).hasSize(2);
  }

  @Test
  void saysWhatIsWrong() throws IOException {
    write("bad.rules", "rule\n");
    assertThatThrownBy(() -> RuleFiles.load(List.of(path("bad.rules")))).isInstanceOf(RunException.class)
        .hasMessageContaining("bad.rules:1:").hasMessageEndingWith("nothing was judged");
    assertThatThrownBy(() -> RuleFiles.load(List.of(path("none.rules")))).isInstanceOf(RunException.class)
        .hasMessageEndingWith("no such file or folder");
    write("bad.csv", "time_ms,signal,value\n0,lift_run,perhaps\n");
    Session session = Session.by(RuleFiles.load(List.of(path("ride.rules"))));
    Report report = session.judge(session.traces(List.of(path("bad.csv"))));
    assertThat(report.hasFailure()).isTrue();
    assertThat(report.traces().get(0).reading().failure()).contains("nothing of it was judged");
  }

  /** Line by line, with files of this ride in place of its paths. */
  @Test
  void isAsTheGuideShowsIt() throws IOException {
    String section = Files.readString(GUIDE).split("## Judging from a program of your own")[1];
    List<String> example = Stream.of(section.split("```java\n")[1].split("```")[0].split("\n")).map(String::strip)
        .filter(line -> !line.isEmpty()).toList();
    List<String> tested = Files.readAllLines(THIS).stream()
        .map(line -> line.strip().replaceAll("path\\((\"[^\"]*\")\\)", "$1")).toList();
    assertThat(example).hasSizeGreaterThan(5).allSatisfy(line -> assertThat(tested).contains(line));
  }

  /** What workers judge one by one, and hand over as lines, becomes the report of all of them. */
  @Test
  void whatIsJudgedOneByOneIsMergedIntoTheSameReport() throws Exception {
    write("torn.csv", "time_ms,signal,value\n0,stop_pressed\n");
    List<String> names = Stream.of("monday.csv", "torn.csv", "tuesday.csv").map(this::path).toList();
    Session session = Session.by(RuleFiles.load(List.of(path("ride.rules"))));
    Report whole = session.judge(session.traces(names)).made(Instant.EPOCH);

    Session elsewhere = Session.by(RuleFiles.of(session.rules().compilation().sources()));
    List<JudgedSource> judged = new ArrayList<>();
    for (String name : names) {
      String line = JsonResult.write(elsewhere.judgeOne(elsewhere.source(List.of(Path.of(name)), elsewhere
          .reading()), names.size()));
      judged.add(JsonResult.readJudged(name, line, session.rules().book()));
    }
    Report merged = session.merged(judged.stream()).made(Instant.EPOCH);

    assertThat(whole.count(Verdict.BROKEN)).isEqualTo(1);
    assertThat(whole.unjudged()).isEqualTo(1);
    assertThat(json(merged)).isEqualTo(json(whole));
  }

  private static String json(Report report) throws IOException {
    StringWriter text = new StringWriter();
    JsonReportWriter.write(report, text);
    return text.toString();
  }
}
