package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import dev.pawl.report.html.HtmlRulesWriter;
import dev.pawl.report.json.JsonReportWriter;
import dev.pawl.report.junit.JunitReportWriter;
import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.text.Style;
import dev.pawl.report.text.TextReport;
import dev.pawl.report.words.FindingWords;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Logic under test over a recording that cannot react to it: what of the recording is evidence, and what it is not
 * evidence for. The ride is invented: a boat on an incline, whose belt idles between boats.
 */
class OpenLoopTest {

  private static final Verdict HELD = Verdict.HELD;
  private static final Verdict UNDECIDED = Verdict.UNDECIDED;
  private static final Verdict NOT_EXERCISED = Verdict.NOT_EXERCISED;

  @TempDir
  private Path folder;

  @BeforeEach
  void makeTheRide() throws IOException {
    write("ride.rules", """
        ride "Little Cataract"
        resolution 10 ms
        input  go_button  : bool
        input  gate       : bool
        input  estop      : bool
        input  latch      : bool
        input  foot_flag  : bool
        input  top_flag   : bool
        input  belt_speed : m/s
        output release    : bool
        output belt       : bool
        output lamp       : bool
        zone incline enter rises(foot_flag) leave falls(top_flag) holds 1 starts with 0
        rule BELT-01 "the belt is slow when no boat has been near for 20 s"
          basis practice
          severity minor
          when falls(top_flag)
          must belt_speed <= 0.5 m/s within 5 s
        rule BELT-02 "the belt is never too fast"
          basis practice
          severity major
          never belt_speed > 3 m/s
        rule BELT-03 "the belt stops on an emergency stop"
          basis practice
          severity critical
          when falls(estop)
          must not belt within 500 ms
        rule BOAT-01 "no boat is let go onto one on the incline"
          basis practice
          severity critical
          when rises(release)
          must not occupied(incline)
        rule BOAT-02 "no boat is let go with the gate open"
          basis practice
          severity critical
          when rises(release)
          must gate
        rule BOAT-03 "the latch closes behind a boat"
          basis practice
          severity major
          when falls(release)
          must latch within 1 s
        rule BOAT-04 "the lamp shows the belt"
          basis practice
          severity minor
          when rises(belt)
          must lamp within 100 ms
        rule DESK-01 "the gate opens only some time after it closed"
          basis practice
          severity minor
          when rises(gate)
          must gate throughout 5 s
        """);
    write("ride.st", logic("belt := running.Q;", "lamp := belt;"));
    write("fast.st", logic("belt := running.Q OR foot_flag OR belt;", "lamp := belt;"));
    write("dark.st", logic("belt := running.Q;", "lamp := belt AND NOT top_flag;"));
    write("ungated.st", logic("belt := running.Q;", "lamp := belt;").replace("go_button AND gate", "go_button"));
  }

  /** A button of 1 s lets a boat go for 2 s; the belt runs for 21 s from then on. */
  private static String logic(String belt, String lamp) {
    return """
        PROGRAM Ride
        VAR_INPUT go_button, gate, estop, foot_flag, top_flag : BOOL; END_VAR
        VAR_OUTPUT release, belt, lamp : BOOL; END_VAR
        VAR pressed : R_TRIG; opened : TP; running : TP; END_VAR
        pressed(CLK := go_button AND gate);
        opened(IN := pressed.Q AND estop, PT := T#2s);
        running(IN := pressed.Q AND estop, PT := T#21s);
        release := opened.Q AND estop;
        %s
        belt := belt AND estop;
        %s
        END_PROGRAM
        """.formatted(belt, lamp);
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  /** Three boats, one each minute, and an emergency stop at the end; only rows of signals that are wanted. */
  private Path day(Predicate<String> wanted) throws IOException {
    StringBuilder rows = new StringBuilder();
    add(rows, 0, "go_button,0", "gate,0", "estop,1", "latch,1", "foot_flag,0", "top_flag,0", "belt_speed,0.2",
        "release,0", "belt,0", "lamp,0");
    for (int boat = 0; boat < 3; boat++) {
      int start = 10_000 + 60_000 * boat;
      add(rows, start, "gate,1");
      add(rows, start + 1000, "go_button,1", "release,1", "belt,1", "lamp,1");
      add(rows, start + 1500, "latch,0");
      add(rows, start + 2000, "go_button,0", "belt_speed,2");
      add(rows, start + 3000, "release,0");
      add(rows, start + 3500, "latch,1");
      add(rows, start + 5000, "foot_flag,1");
      add(rows, start + 7000, "foot_flag,0");
      add(rows, start + 19_000, "top_flag,1");
      add(rows, start + 21_000, "top_flag,0");
      add(rows, start + 22_000, "belt,0", "lamp,0");
      add(rows, start + 23_000, "belt_speed,0.2");
      add(rows, start + 30_000, "gate,0");
    }
    add(rows, 200_000, "estop,0");
    String kept = rows.toString().lines().filter(row -> wanted.test(row.split(",")[1]))
        .collect(Collectors.joining("\n"));
    return write("day.csv", "time_ms,signal,value\n" + kept + "\n# end: 210000\n");
  }

  private static void add(StringBuilder rows, int time, String... values) {
    for (String value : values) {
      rows.append(time).append(',').append(value).append('\n');
    }
  }

  private Report judged(String program, String bindings, Path trace) throws IOException {
    RuleFiles rules = RuleFiles.load(List.of(folder.resolve("ride.rules").toString()));
    LogicFiles logic = LogicFiles.load(List.of(folder.resolve(program).toString()));
    Session session = Session.by(rules).withController(LogicController.of(rules, logic, LogicSettings.DEFAULT));
    if (!bindings.isEmpty()) {
      session = session.withBindings(BindingsFiles.load(write("site.bindings", bindings).toString(), rules.book()));
    }
    return session.judge(session.traces(List.of(trace.toString())));
  }

  private static Map<String, Verdict> verdicts(Report report) {
    return report.traces().get(0).rules().stream()
        .collect(Collectors.toMap(rule -> rule.rule().id(), RuleResult::verdict, (one, other) -> one, TreeMap::new));
  }

  private static RuleResult rule(Report report, String id) {
    return report.traces().get(0).rules().stream().filter(rule -> rule.rule().id().equals(id)).findFirst()
        .orElseThrow();
  }

  private static List<String> said(Report report) {
    return report.traces().get(0).reading().counters().stream().map(counter -> counter.count() + " " + counter.label())
        .toList();
  }

  @Test
  void logicThatDoesWhatWasRecordedIsJudgedByAllThatWasRecorded() throws IOException {
    Report report = judged("ride.st", "", day(signal -> true));
    assertThat(verdicts(report)).isEqualTo(Map.of("BELT-01", HELD, "BELT-02", HELD, "BELT-03", NOT_EXERCISED, "BOAT-01",
        HELD, "BOAT-02", HELD, "BOAT-03", HELD, "BOAT-04", HELD, "DESK-01", HELD));
    assertThat(said(report)).contains("3 outputs compared with those recorded; the same as long as they come no more "
        + "than 30 ms sooner or later");
  }

  /** The belt goes on 600 ms too long. A slow task that writes the lamp only does not excuse that. */
  @Test
  void howLateAnOutputMayBeIsUpToTheTaskThatWritesIt() throws IOException {
    write("tasks.st", logic("belt := running.Q;", "").replace(", lamp : BOOL", " : BOOL")
        .replace("T#21s", "T#21s600ms") + """
        PROGRAM Show
        VAR_EXTERNAL shown, lamp : BOOL; END_VAR
        lamp := shown;
        END_PROGRAM
        CONFIGURATION C
        VAR_GLOBAL shown, lamp : BOOL; END_VAR
        TASK Fast(INTERVAL := T#10ms, PRIORITY := 0);
        TASK Slow(INTERVAL := T#500ms, PRIORITY := 1);
        PROGRAM ride WITH Fast : Ride(belt => shown);
        PROGRAM show WITH Slow : Show;
        END_CONFIGURATION
        """);
    Report report = judged("tasks.st", "", day(signal -> true));
    assertThat(said(report)).contains("3 outputs compared with those recorded; the same as long as they come no more "
        + "than 30 ms, 1.01 s sooner or later");
    assertThat(rule(report, "BELT-01").seen().departures()).containsExactly(
        new DepartureResult("belt", 32_000_000_000L, "false", "true", List.of("top_flag", "belt_speed")));
  }

  /**
   * The belt never idles any more. What the recorded belt did at 33 s is no evidence for that; what the gate and the
   * logic do is.
   */
  @Test
  void whatFollowsAnOutputIsUnknownFromItsFirstDifferenceOn() throws IOException {
    Report report = judged("fast.st", "feedback\n  latch follows release\n", day(signal -> true));
    assertThat(verdicts(report)).isEqualTo(Map.of("BELT-01", UNDECIDED, "BELT-02", UNDECIDED, "BELT-03", HELD,
        "BOAT-01", UNDECIDED, "BOAT-02", HELD, "BOAT-03", HELD, "BOAT-04", HELD, "DESK-01", HELD));
    assertThat(rule(report, "BELT-01").seen().departures()).containsExactly(
        new DepartureResult("belt", 32_000_000_000L, "false", "true", List.of("top_flag", "belt_speed")));
    assertThat(rule(report, "BELT-01").obligations().met()).isZero();
    assertThat(rule(report, "BOAT-01").obligations().met()).isEqualTo(1);
    assertThat(said(report)).contains("1 first difference from a recorded output: belt was not as recorded from "
        + "32.000 s on, true instead of false;"
        + " unknown after that: foot_flag, top_flag, belt_speed");
  }

  /**
   * A release at another time than recorded breaks the rule at once, whatever follows: at that instant the recording
   * still counts.
   */
  @Test
  void whatALogicDoesWrongAtTheFirstDifferenceIsBroken() throws IOException {
    Path day = day(signal -> true);
    Path early = write("early.csv", Files.readString(day).replace("10000,gate,1",
        "9000,go_button,1\n9500,go_button,0\n10000,gate,1"));
    Report report = judged("ungated.st", "", early);
    assertThat(rule(report, "BOAT-02").verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(rule(report, "BOAT-02").broken()).singleElement()
        .satisfies(finding -> assertThat(finding.trigger()).isEqualTo(9_000_000_000L));
    assertThat(verdicts(report)).containsEntry("BELT-01", UNDECIDED).containsEntry("BOAT-03", UNDECIDED);
  }

  /**
   * A zone's flags follow the release too; but for the resolution after it they are what was recorded, as they were at
   * that instant.
   */
  @Test
  void aReleaseOntoAnOccupiedZoneIsBrokenThoughItsFlagsAreUnknownAfterIt() throws IOException {
    Path day = day(signal -> true);
    Path pressed = write("pressed.csv", Files.readString(day)
        .replace("17000,foot_flag,0", "17000,foot_flag,0\n20000,go_button,1\n20500,go_button,0"));
    Report report = judged("ride.st", "", pressed);
    assertThat(rule(report, "BOAT-01").broken()).singleElement()
        .satisfies(finding -> assertThat(finding.trigger()).isEqualTo(20_000_000_000L));
    assertThat(verdicts(report)).containsEntry("BELT-01", UNDECIDED);
  }

  @Test
  void aLampThatIsSaidToMoveNothingPutsNothingInDoubt() throws IOException {
    Report report = judged("dark.st", "feedback\n  lamp moves nothing\n", day(signal -> true));
    assertThat(verdicts(report)).isEqualTo(verdicts(judged("ride.st", "", day(signal -> true))));
    assertThat(verdicts(judged("dark.st", "", day(signal -> true)))).containsEntry("BELT-01", UNDECIDED);
  }

  @Test
  void anOutputMayComeLateAsStated() throws IOException {
    Path day = day(signal -> true);
    Files.writeString(day, Files.readString(day).replace("32000,belt,0\n32000,lamp,0", "32000,lamp,0\n32200,belt,0"));
    assertThat(verdicts(judged("ride.st", "", day))).containsEntry("BELT-01", UNDECIDED);
    assertThat(verdicts(judged("ride.st", "feedback\n  belt late 300 ms\n", day))).containsEntry("BELT-01", HELD);
    assertThat(verdicts(judged("ride.st", "sampling\n  belt every 250 ms\n", day))).containsEntry("BELT-01", HELD);
  }

  /**
   * It divides by zero as the second boat passes the foot, 75 s into the day; all its outputs go to their first values.
   */
  @Test
  void logicThatStopsByAnErrorIsJudgedUpToThere() throws IOException {
    write("stops.st", logic("belt := running.Q;",
        "IF foot_flag AND passed THEN n := 1 / n; END_IF; passed := passed OR top_flag; lamp := belt;")
        .replace("VAR pressed", "VAR passed : BOOL; n : INT; pressed"));
    Report report = judged("stops.st", "", day(signal -> true));
    assertThat(report.traces().get(0).end()).isEqualTo(75_000_000_000L);
    assertThat(said(report)).noneMatch(words -> words.contains("first difference"));
    assertThat(verdicts(report)).containsEntry("BELT-01", HELD).containsEntry("BOAT-02", HELD);
  }

  /** Each signal is looked at every 100 ms, so that the recorded outputs seem to come later than they did. */
  @Test
  void anOutputThatWasPolledMayComeALookLater() throws IOException {
    Map<String, String> now = new LinkedHashMap<>();
    StringBuilder polled = new StringBuilder("time_ms,signal,value\n");
    List<String> rows = Files.readAllLines(day(signal -> true)).stream().filter(row -> row.matches("\\d.*")).toList();
    int next = 0;
    for (int time = 70; time <= 210_000; time += 100) {
      for (; next < rows.size() && Integer.parseInt(rows.get(next).split(",")[0]) <= time; next++) {
        now.put(rows.get(next).split(",")[1], rows.get(next).split(",")[2]);
      }
      for (Map.Entry<String, String> each : now.entrySet()) {
        add(polled, time, each.getKey() + "," + each.getValue());
      }
    }
    Report report = judged("ride.st", "", write("polled.csv", polled.toString()));
    assertThat(said(report)).contains("3 outputs compared with those recorded; the same as long as they come no more "
        + "than 130 ms sooner or later")
        .noneMatch(words -> words.contains("first difference"));
    assertThat(verdicts(report)).containsEntry("BELT-01", HELD).containsEntry("BELT-02", HELD);
    assertThat(verdicts(judged("fast.st", "", folder.resolve("polled.csv")))).containsEntry("BELT-01", UNDECIDED)
        .containsEntry("BELT-02", UNDECIDED);
  }

  /**
   * Without recorded outputs nothing tells whether the recorded ride did what this logic would have had it do. What
   * only the recording answers for is not exercised, and what the logic could have failed by its outputs is judged.
   */
  @Test
  void withoutRecordedOutputsWhatRestsOnTheRecordingAloneIsNotExercised() throws IOException {
    Report report = judged("ride.st", "", day(signal -> !List.of("release", "belt", "lamp").contains(signal)));
    assertThat(verdicts(report)).isEqualTo(Map.of("BELT-01", NOT_EXERCISED, "BELT-02", NOT_EXERCISED, "BELT-03",
        NOT_EXERCISED, "BOAT-01", HELD, "BOAT-02", HELD, "BOAT-03", NOT_EXERCISED, "BOAT-04", HELD, "DESK-01",
        NOT_EXERCISED));
    assertThat(FindingWords.notExercisedReason(rule(report, "BELT-01")))
        .isEqualTo("rests on recorded signals only: the trace has no values of release, belt, lamp");
    assertThat(FindingWords.notExercisedReason(rule(report, "BOAT-03")))
        .isEqualTo("rests on recorded signals only: the trace has no values of release");
    assertThat(rule(report, "BELT-01").margin()).isEmpty();
    assertThat(said(report))
        .contains("3 outputs that the trace has no values of, or not from their first change on: release, belt, lamp");
  }

  /** The belt is not in the log: what follows it rests on the recording, and what follows the latch does not. */
  @Test
  void anOutputThatIsNotInTheLogTakesWhatFollowsItWithIt() throws IOException {
    String follows = "feedback\n  belt_speed follows belt\n  foot_flag follows release\n  top_flag follows release\n  "
        + "lamp moves nothing\n";
    Report report = judged("ride.st", follows, day(signal -> !signal.equals("belt")));
    assertThat(verdicts(report)).isEqualTo(Map.of("BELT-01", NOT_EXERCISED, "BELT-02", NOT_EXERCISED, "BELT-03",
        NOT_EXERCISED, "BOAT-01", HELD, "BOAT-02", HELD, "BOAT-03", HELD, "BOAT-04", HELD, "DESK-01", HELD));
  }

  @Test
  void everyReportSaysWhatWasNotAsRecorded() throws IOException {
    Report report = judged("fast.st", "", day(signal -> true));
    String sentence = "belt was not as recorded from 32.000 s on, true instead of false, so that top_flag, belt_speed "
        + "are unknown after that";
    assertThat(TextReport.trace(report.traces().get(0), Style.PLAIN, 3).replaceAll("\\s+", " "))
        .contains("since " + sentence);
    StringWriter junit = new StringWriter();
    JunitReportWriter.write(report, junit);
    assertThat(junit.toString()).contains("; " + sentence + "\"");
    StringWriter html = new StringWriter();
    HtmlRulesWriter.write(report, html);
    assertThat(html.toString()).contains("B" + sentence.substring(1) + ".");
    StringWriter json = new StringWriter();
    JsonReportWriter.write(report, json);
    assertThat(json.toString().replaceAll("\\s+", "")).contains(
        "\"departures\":[{\"output\":\"belt\",\"time\":{\"ns\":32000000000,\"text\":\"32.000s\"},\"recorded\":\"false\",\"computed\":\"true\","
            + "\"unknown\":[\"top_flag\",\"belt_speed\"]}]");
  }
}
