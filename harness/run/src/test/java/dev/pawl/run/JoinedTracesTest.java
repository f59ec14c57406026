package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.TimeText;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One session in several files: of a logger that begins new ones, and of two loggers side by side. */
class JoinedTracesTest {

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
  }

  private void write(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private Report judged(String bindings, String... traces) throws IOException {
    write("site.bindings", bindings);
    RuleFiles rules = RuleFiles.load(List.of(path("ride.rules")));
    Session session = Session.by(rules).withBindings(BindingsFiles.load(path("site.bindings"), rules.book()));
    return session.judge(session.traces(List.of(traces).stream().map(this::path).toList()));
  }

  private static List<String> counted(TraceResult result) {
    return result.reading().counters().stream().map(Reading.Counter::label).toList();
  }

  /** The stop is pressed at the end of one file, and the lift stops too late at the beginning of the next. */
  private void rotate() throws IOException {
    write("log.1", "time,signal,value\n2026-11-25T09:00:00Z,stop_pressed,0\n2026-11-25T09:00:00Z,lift_run,1\n2026-11-25T09:00:05Z,stop_pressed,1\n");
    write("log.2", "time,signal,value\n2026-11-25T09:00:05.400Z,lift_run,0\n2026-11-25T09:00:06Z,stop_pressed,0\n");
    write("log.3", "time,signal,value\n2026-11-25T11:00:06Z,lift_run,1\n");
  }

  @Test
  void rotatedLogsAreJudgedAsOneInOrderOfTime() throws IOException {
    rotate();
    Report report = judged("session\n joined\n", "log.3", "log.2", "log.1");
    assertThat(report.traces()).hasSize(1);
    TraceResult result = report.traces().get(0);
    assertThat(result.count(Verdict.BROKEN)).isEqualTo(1);
    assertThat(result.path()).isEqualTo(path("log.3") + " and 2 more");
    assertThat(result.lines()).isEqualTo(9);
    assertThat(counted(result)).containsExactly("hole between files, of 400 ms before log.2",
        "hole between files, of 2 h before log.3");
    FindingResult finding = result.rules().get(0).broken().get(0);
    assertThat(finding.evidence()).extracting(EvidenceResult::place)
        .containsOnly(path("log.1") + ":4", path("log.1") + ":3");
    assertThat(report.inputs()).extracting(input -> Path.of(input.path()).getFileName().toString())
        .contains("log.1", "log.2", "log.3");
  }

  /** What came from the log keeps its file and line beside what the program gave. */
  @Test
  void logicIsTriedOnThemAsOne() throws IOException {
    rotate();
    write("logic.st", """
        PROGRAM main
          VAR_INPUT stop_pressed : BOOL; END_VAR
          VAR_OUTPUT lift_run : BOOL; END_VAR
          lift_run := TRUE;
        END_PROGRAM
        """);
    write("site.bindings", "session\n joined\n");
    RuleFiles rules = RuleFiles.load(List.of(path("ride.rules")));
    LogicFiles logic = LogicFiles.load(List.of(path("logic.st")));
    Session session = Session.by(rules).withBindings(BindingsFiles.load(path("site.bindings"), rules.book()))
        .withController(LogicController.of(rules, logic, LogicSettings.DEFAULT));
    Report report = session.judge(session.traces(List.of(path("log.1"), path("log.2"))));
    FindingResult finding = report.traces().get(0).rules().get(0).broken().get(0);
    assertThat(finding.evidence()).extracting(EvidenceResult::place).contains(path("log.1") + ":4")
        .allMatch(place -> place.startsWith(path("log.1") + ":") || place.startsWith(path("logic.st") + ":"));
  }

  @Test
  void theSameFilesEachForItselfGetAHint() throws IOException {
    rotate();
    Report report = judged("", "log.1", "log.2", "log.3");
    assertThat(report.traces()).extracting(trace -> trace.count(Verdict.BROKEN)).containsOnly(0L);
    assertThat(report.cautions()).containsExactly(path("log.2") + " begins 400 ms after the end of " + path("log.1")
        + ", and each was judged for itself. If they are files of one session, say so in a bindings file, under "
        + "'session': joined");
  }

  /** Two rides on one clock both have all signals; two loggers have each something of its own. */
  @Test
  void ridesSideBySideGetAHintOnlyWhereEachLacksWhatTheOtherHas() throws IOException {
    rotate();
    write("other.1", "time,signal,value\n2026-11-25T09:00:01Z,stop_pressed,0\n2026-11-25T09:00:02Z,lift_run,1\n");
    assertThat(judged("", "log.1", "other.1").cautions()).isEmpty();
    write("plc.csv", "time,stop_pressed\n2026-11-25T09:00:00Z,0\n2026-11-25T09:00:09Z,0\n");
    write("drive.csv", "time,lift_run\n2026-11-25T09:00:01Z,1\n2026-11-25T09:00:08Z,0\n");
    assertThat(judged("", "plc.csv", "drive.csv").cautions()).containsExactly(path("drive.csv")
        + " overlaps in time with " + path("plc.csv") + ", and each was judged for itself. If they are files of one "
        + "session, say so in a bindings file, under 'session': joined");
  }

  /** The drive's clock is 200 ms ahead: by it the lift stops after 350 ms, in truth after 150 ms. */
  @Test
  void twoLoggersAreMergedWithTheirClocksPutRight() throws IOException {
    write("plc.csv", "time,stop_pressed\n2026-11-25T09:00:00Z,0\n2026-11-25T09:00:05Z,1\n2026-11-25T09:00:09Z,0\n");
    write("drive-1.csv",
        "time,lift_run\n2026-11-25T09:00:00.2Z,1\n2026-11-25T09:00:05.350Z,0\n2026-11-25T09:00:08Z,0\n");
    TraceResult wrong = judged("session\n joined\n", "plc.csv", "drive-1.csv").traces().get(0);
    assertThat(wrong.count(Verdict.BROKEN)).isEqualTo(1);
    assertThat(wrong.rules().get(0).broken().get(0).evidence()).extracting(EvidenceResult::place)
        .contains(path("plc.csv") + ":3", path("drive-1.csv") + ":2");
    TraceResult right = judged("session\n joined\n clock \"drive-*.csv\" ahead 200 ms\n", "plc.csv", "drive-1.csv")
        .traces().get(0);
    assertThat(right.count(Verdict.HELD)).isEqualTo(1);
    assertThat(counted(right)).isEmpty();
  }

  /**
   * Two loggers that both have the stop button; only the drive's has the drive. It stops so many milliseconds after
   * each press, and by the drive's clock, which is 90 s ahead, never near one. Each row of a press is up to 20 ms late.
   */
  private void twoLoggers(int lag) throws IOException {
    Random random = new Random(lag);
    StringBuilder plc = new StringBuilder("time_ms,signal,value\n0,stop_pressed,0\n");
    StringBuilder drive = new StringBuilder("time_ms,signal,value\n90000,stop_pressed,0\n90000,lift_run,1\n");
    int time = 0;
    for (int stop = 0; stop < 12; stop++) {
      time += 5000 + random.nextInt(20_000);
      int seen = time + 90_000;
      plc.append(time + random.nextInt(20)).append(",stop_pressed,1\n").append(time + 2000 + random.nextInt(20))
          .append(",stop_pressed,0\n");
      drive.append(seen + random.nextInt(20)).append(",stop_pressed,1\n").append(seen + lag).append(",lift_run,0\n")
          .append(seen + 2000 + random.nextInt(20)).append(",stop_pressed,0\n").append(seen + 3000)
          .append(",lift_run,1\n");
    }
    write("plc.csv", plc.toString());
    write("drive-1.csv", drive.toString());
  }

  private Verdict byEstimatedClock(int lag) throws IOException {
    twoLoggers(lag);
    TraceResult result = judged("session\n joined\n clock \"drive-*.csv\" estimated\n", "plc.csv", "drive-1.csv")
        .traces().get(0);
    assertThat(result.reading().failure()).isEmpty();
    assertThat(counted(result)).hasSize(1).allSatisfy(words -> assertThat(words).matches("changes that other files "
        + "have too, of stop_pressed, by which the clock of drive-\\*.csv is taken to be (89.9|90|1 min 30).* ahead, "
        + "give or take .* ms; where a rule needs signals of both, its resolution is wider by that"));
    return result.rules().get(0).verdict();
  }

  @Test
  void aClockIsEstimatedBySignalsThatBothLoggersHave() throws IOException {
    assertThat(byEstimatedClock(150)).isEqualTo(Verdict.HELD);
    assertThat(byEstimatedClock(290)).isEqualTo(Verdict.UNDECIDED);
    assertThat(byEstimatedClock(310)).isEqualTo(Verdict.UNDECIDED);
    assertThat(byEstimatedClock(500)).isEqualTo(Verdict.BROKEN);
  }

  @Test
  void aClockThatNothingTellsIsNotGuessed() throws IOException {
    write("plc.csv", "time_ms,signal,value\n0,stop_pressed,0\n5000,stop_pressed,1\n");
    write("drive-1.csv", "time_ms,signal,value\n0,stop_pressed,0\n0,lift_run,1\n5200,stop_pressed,1\n");
    TraceResult result = judged("session\n joined\n clock \"drive-*.csv\" estimated\n", "plc.csv", "drive-1.csv")
        .traces().get(0);
    assertThat(result.rules()).isEmpty();
    assertThat(result.reading().failure()).isEqualTo("the clock of drive-*.csv cannot be estimated, since no bool "
        + "changes 5 times or more both there and in the files whose clocks are right; state it: clock \"drive-*.csv\" "
        + "ahead 1.5 s, or behind");
  }

  @Test
  void resultsShowTimesByTheClockOfTheSite() throws IOException {
    write("plc.csv",
        "time,stop_pressed,lift_run\n2026-11-25 10:00:00,0,1\n2026-11-25 10:00:05,1,1\n2026-11-25 10:00:09,0,0\n");
    TraceResult result = judged("time\n zone Europe/Vienna\n", "plc.csv").traces().get(0);
    assertThat(TimeText.at(result.timeBase(), result.start())).isEqualTo("2026-11-25T10:00:00.000+01:00");
  }

  @Test
  void datesAndTimesFromAStartAreNoSession() throws IOException {
    write("plc.csv", "time,stop_pressed\n2026-11-25T09:00:00Z,0\n");
    write("drive.csv", "time_ms,lift_run\n5,1\n");
    assertThat(judged("session\n joined\n", "plc.csv", "drive.csv").traces().get(0).reading().failure())
        .isEqualTo("the traces cannot be one session: the times of plc.csv are dates, those of drive.csv count from a "
            + "start of its own;"
            + " state under 'time' in a bindings file what both are, or leave 'joined' out");
  }

  @Test
  void whatIsWrongIsToldWithItsFile() throws IOException {
    rotate();
    write("log.2", "time,signal,value\n2026-11-25T09:00:05.400Z,lift_run,off\n");
    Reading reading = judged("session\n joined\n", "log.1", "log.2").traces().get(0).reading();
    assertThat(reading.failure())
        .startsWith("log.2: 1 problem: 1 x wrong value (first in line 2); nothing of it was judged");
    assertThat(reading.problems()).extracting(Reading.Problem::line).containsExactly(2L);
    assertThat(reading.problems().get(0).message()).startsWith("log.2: 'off' is no value of signal 'lift_run'");
  }

  /** As many files as a month has days, more rows than are handed over at once. */
  @Test
  void manyFilesOfManyRowsAreMergedInOrder() throws IOException {
    StringBuilder stops = new StringBuilder("time_ms,stop_pressed\n");
    for (int file = 0; file < 30; file++) {
      StringBuilder rows = new StringBuilder("time_ms,lift_run\n");
      for (int i = 0; i < 9000; i++) {
        rows.append(file * 10_000 + i).append(',').append(i % 2).append('\n');
      }
      stops.append(file * 10_000 + 4321).append(',').append(file % 2).append('\n');
      write("lift-" + file + ".csv", rows.toString());
    }
    write("stops.csv", stops.toString());
    List<String> names = new ArrayList<>(List.of("stops.csv"));
    for (int file = 0; file < 30; file++) {
      names.add("lift-" + file + ".csv");
    }
    TraceResult result = judged("session\n joined\n", names.toArray(String[]::new)).traces().get(0);
    assertThat(result.reading().failure()).isEmpty();
    assertThat(result.events()).isEqualTo(30 * 9000 + 30);
    assertThat(result.rules().get(0).verdict()).isEqualTo(Verdict.HELD);
  }
}
