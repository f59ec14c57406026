package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code pawl replay} on recorded traces, from the command line to what it says, keeps and ends with. */
class ReplayCommandTest {

  private static final String RULES = """
      ride "Test stand"
      resolution 1 ms
      input    estop_chain  : bool
      input    start_button : bool
      input    load         : A
      output   lift_run     : bool
      internal starts       : number
      rule STOP-01 "E-stop stops the lift"
        severity critical
        basis practice
        when falls(estop_chain)
        must not lift_run within 100 ms
      rule COUNT-01 "Starts are counted"
        severity minor
        basis practice
        when rises(lift_run)
        must starts >= 1
      """;

  private static final String LOGIC = """
      PROGRAM Lift
      VAR_INPUT
        estop_chain, start_button : BOOL;
        load : REAL;
      END_VAR
      VAR_OUTPUT
        lift_run : BOOL;
      END_VAR
      VAR
        starts  : INT;
        started : R_TRIG;
        stop    : TON;
      END_VAR
        started(CLK := start_button);
        stop(IN := NOT estop_chain, PT := T#50ms);
        IF started.Q THEN
          starts := starts + 1;
          lift_run := TRUE;
        END_IF;
        IF stop.Q THEN
          lift_run := FALSE;
        END_IF;
      END_PROGRAM
      """;

  /** The recording has the lift running all the while: its own outputs must not count. */
  private static final String TRACE = """
      time_s,signal,value
      0,estop_chain,1
      0,start_button,0
      0,load,10
      0,lift_run,1
      1,start_button,1
      1.2,start_button,0
      5,estop_chain,0
      6,lift_run,0
      9,load,0
      """;

  @TempDir
  Path folder;

  @BeforeEach
  void writeFiles() throws IOException {
    write("stop.rules", RULES);
    write("lift.st", LOGIC);
    write("late.st", LOGIC.replace("T#50ms", "T#150ms"));
    write("ride.csv", TRACE);
  }

  private void write(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private Run replay(String logic, String... words) {
    String[] all = new String[words.length + 7];
    System.arraycopy(new String[] {"replay", "--quiet", "--rules", path("stop.rules"), "--logic", path(logic)}, 0, all,
        0, 6);
    System.arraycopy(words, 0, all, 6, words.length);
    all[all.length - 1] = path("ride.csv");
    return Run.of(all);
  }

  @Test
  void theProgramIsJudgedAndNotTheRecording() {
    Run run = replay("lift.st");
    assertThat(run.err()).isEmpty();
    assertThat(run.status()).isZero();
    assertThat(run.out().replaceAll("\\s+", " ")).contains("0 broken, 0 undecided, 0 not exercised, 2 held",
        "901 scans of the program under test",
        "2 events of the trace left out, because the program gives those signals itself",
        "The inputs are a recording, which cannot react");
    assertThat(Run.of("check", "--rules", path("stop.rules"), path("ride.csv")).status()).isEqualTo(1);
  }

  /** The stop comes at 5.000 s; the scan of 5.000 s starts the timer of 150 ms, that of 5.150 s ends it, 50 ms late. */
  @Test
  void evidenceNamesTheLineThatWroteTheOutput() {
    Run run = replay("late.st");
    assertThat(run.status()).isEqualTo(1);
    assertThat(run.out().replace(folder.toString(), "DIR").replaceAll("\\s+", " ")).contains("BROKEN STOP-01",
        "it came at 5.150 s, 50 ms late", "lift_run became true at 1.000 s late.st:18 lift_run := TRUE;");
  }

  @Test
  void theReportFilesNameTheLineToo() throws IOException {
    replay("late.st", "--out", path("out"));
    assertThat(Files.readString(folder.resolve("out/report.json"))).containsIgnoringWhitespaces(
        "\"writtenBy\" : { \"file\" : \"" + path("late.st") + "\", \"line\" : 18, \"text\" : \"lift_run := TRUE;\" }");
    assertThat(Files.readString(folder.resolve("out/rules.html"))).contains("late.st:18",
        "<pre>lift_run := TRUE;</pre>");
    assertThat(Files.readString(folder.resolve("out/report.html")))
        .contains("The inputs are a recording, which cannot");
  }

  @ParameterizedTest
  @CsvSource({"lift.st", "late.st"})
  void whatIsKeptIsJudgedTheSame(String logic) throws IOException {
    Run replayed = replay(logic, "--keep", path("kept.csv"), "--jitter", "3ms", "--out", path("before"));
    Run checked = Run.of("check", "--rules", path("stop.rules"), "--out", path("after"), path("kept.csv"));
    assertThat(checked.status()).isEqualTo(replayed.status());
    Run compared = Run.of("compare", path("before/report.json"), path("after/report.json"));
    assertThat(compared.out()).contains("0 rules changed, 0 newly broken, 2 unchanged");
  }

  /** The timer is asked in each of the 901 scans; the start button is pressed once. */
  @Test
  void aComparisonSaysOfEachChangedLineWhetherItCameIntoPlay() throws IOException {
    write("changed.st", LOGIC.replace("T#50ms", "T#60ms").replace("starts := starts + 1", "starts := 1")
        .replace("starts  : INT;", "starts  : INT := 0;"));
    String[] words = {"compare", "--quiet", "--rules", path("stop.rules"), "--logic", path("lift.st"), "--logic",
        path("changed.st"), path("ride.csv")};
    Run run = Run.of(words);
    assertThat(run.status()).isZero();
    assertThat(run.out().replace(folder.toString(), "DIR").replaceAll("\\s+", " ")).contains(
        "DIR/changed.st:10 is no part of a statement: what it declares shows where that is used before Lift: starts"
            + " : INT; after Lift: starts : INT := 0;",
        "DIR/changed.st:15 came to something else in 901 scans of those in which it ran before Lift: stop(IN := NOT"
            + " estop_chain, PT := T#50ms); after Lift: stop(IN := NOT estop_chain, PT := T#60ms); first at 0.000 s of"
            + " DIR/ride.csv",
        "DIR/changed.st:17 ran in 1 scan, and always came to the same as before before Lift: starts := starts + 1;"
            + " after Lift: starts := 1;");
    String[] json = new String[words.length + 2];
    System.arraycopy(words, 0, json, 0, words.length);
    json[words.length] = "--format";
    json[words.length + 1] = "json";
    assertThat(Run.of(json).out()).containsIgnoringWhitespaces("\"effect\": \"alike\", \"scansBefore\": 1,"
        + " \"scansAfter\": 1, \"scansDiffering\": 0");
  }

  @Test
  void everyMismatchIsToldAtOnce() throws IOException {
    write("other.st", LOGIC.replace("lift_run", "lift_runs").replace("starts  : INT", "starts  : STRING")
        .replace("starts := starts + 1;", "")
        .replace("NOT estop_chain", "start_button").replace("estop_chain, ", ""));
    Run run = replay("other.st");
    assertThat(run.status()).isEqualTo(2);
    assertThat(run.err()).contains("the program has no variable lift_run to give this signal",
        "did you mean lift_runs?", "the signal starts cannot be the variable Lift.starts of type STRING",
        "the program has no variable estop_chain; the signal is taken from the trace",
        "logic and rules do not fit together: 2 errors, nothing was judged");
    assertThat(run.out()).isEmpty();
  }

  /** With little room for calls, as if the logic were far larger. */
  @Test
  void whatNestsTooDeeplyIsToldWithAWayOut() throws Exception {
    write("deep.st", LOGIC.replace("IN := NOT estop_chain", "IN := NOT estop_chain" + " OR start_button".repeat(390)));
    // First, so that no class is loaded with little room, which would leave it useless.
    assertThat(replay("deep.st").status()).isZero();
    AtomicReference<Run> run = new AtomicReference<>();
    Thread thread = new Thread(null, () -> run.set(replay("deep.st")), "little room", 200_000);
    thread.start();
    thread.join();
    assertThat(run.get().err()).contains("pawl: something in it nests too deeply; give it more room with");
    assertThat(run.get().status()).isEqualTo(2);
  }

  @Test
  void aRunTimeErrorEndsInAPartialReport() throws IOException {
    write("failing.st", LOGIC.replace("started(CLK", "starts := 8 / (5 - starts * 5);\n  started(CLK"));
    Run run = replay("failing.st");
    assertThat(run.status()).isEqualTo(2);
    assertThat(run.err()).contains("the program stopped by a run-time error at", "failing.st:14: ", "(scan ",
        "what comes after is not judged");
    assertThat(run.out()).contains("Partial: judged up to ");
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "--scan    | fast           | --scan: 'fast' is not a span of time",
      "--jitter  | 20ms           | the jitter must be at least 0 and less than the period",
      "--overrun-share | 0.5      | --overrun-share: say with --overrun how long such a scan takes",
      "--power-cut | at noon      | --power-cut: 'at noon' is not a power cut",
      "--overflow | saturate      | --overflow: 'saturate' is not known; write wrap or trap",
      "--unfit-reals | wrap       | --unfit-reals: 'wrap' is not known; write trap or limit",
      "--arithmetic | lint        | --arithmetic: 'lint' is not known; write own-type or dint",
      "--wider-bits | one         | --wider-bits: 'one' is not known; write sign or zero",
      "--zero-timers | never      | --zero-timers: 'never' is not known; write same-scan or next-scan",
      "--pulse-edge | maybe       | --pulse-edge: 'maybe' is not known; write lost or next-pulse",
      "--and-or | some             | --and-or: 'some' is not known; write both or needed",
      "--modulo-by-zero | one      | --modulo-by-zero: 'one' is not known; write trap or zero",
      "--first-f-trig | maybe      | --first-f-trig: 'maybe' is not known; write pulse or no-pulse",
      "--first-tof | maybe         | --first-tof: 'maybe' is not known; write off or on",
      "--enumerations | byte       | --enumerations: 'byte' is not known; write dint or int",
      "--addresses | words         | --addresses: 'words' is not known; write bytes or sizes",
      "--allow | anything          | --allow: 'anything' is not known; write one of missing-semicolons, missing-ends",
      "--task | Slow often         | --task: 'Slow often' does not say how a task keeps its times",
      "--task | Slow jitter 5      | --task: 'Slow jitter 5' does not say how a task keeps its times",
      "--variable | lift_run      | --variable: 'lift_run' is no pair; write SIGNAL=VARIABLE",
      "--as-recorded | lift_rum   | --as-recorded: the rules declare no signal 'lift_rum'; did you mean lift_run?",
      "--ride    | nowhere        | nowhere: no such file or folder"})
  void wrongOptionsAreTold(String option, String value, String message) {
    Run run = replay("lift.st", option, value);
    assertThat(run.status()).isEqualTo(2);
    assertThat(run.err()).contains(message);
  }

  /**
   * What the standard leaves open, by the usual way and by the other; ArithmeticTest and TimersTest in harness/logic
   * say on what basis.
   */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "--overflow      | trap       | starts := ten * 4000;                                      | -25536",
      "--overflow      | wrap       | starts := ten * 4000;                                      | -25536",
      "--unfit-reals   | limit      | starts := REAL_TO_INT(INT_TO_REAL(ten) * 4000.0);          | 32767",
      "--arithmetic    | own-type   | starts := small + 100;                                     | -56",
      "--arithmetic    | dint       | starts := small + 100;                                     | 200",
      "--wider-bits    | sign       | IF INT_TO_DWORD(-ten) > 16#FFFF THEN starts := 5; END_IF;  | 5",
      "--wider-bits    | zero       | IF INT_TO_DWORD(-ten) <= 16#FFFF THEN starts := 6; END_IF; | 6",
      "--zero-timers   | same-scan  | IF scans = 1 AND NOT none.Q THEN starts := 7; END_IF;      | 7",
      "--zero-timers   | next-scan  | IF scans = 1 AND none.Q THEN starts := 8; END_IF;          | 8",
      "--pulse-edge    | lost       | IF scans = 3 AND NOT pulse.Q THEN starts := 9; END_IF;     | 9",
      "--and-or        | needed     | IF NOT (none.Q AND 1 / (ten - 10) > 0) THEN starts := 12; END_IF; | 12",
      "--modulo-by-zero | zero      | starts := 13 + ten MOD (ten - 10);                         | 13",
      "--first-f-trig  | no-pulse   | fell(CLK := FALSE); IF scans = 1 AND NOT fell.Q THEN starts := 14; END_IF; | 14",
      "--first-f-trig  | pulse      | fell(CLK := FALSE); IF scans = 1 AND fell.Q THEN starts := 17; END_IF; | 17",
      "--first-tof     | on         | late(PT := T#1s); IF scans = 1 AND late.Q THEN starts := 15; END_IF; | 15",
      "--allow         | missing-semicolons | IF scans = 1 THEN starts := 16; END_IF             | 16",
      "--pulse-edge    | next-pulse | IF scans = 3 AND pulse.Q THEN starts := 11; END_IF;        | 11"})
  void eachOpenQuestionIsDecidedByItsOption(String option, String way, String statement, String starts)
      throws IOException {
    write("open.st", LOGIC.replace("started : R_TRIG;",
        "started : R_TRIG; ten : INT := 10; small : SINT := 100; scans : DINT; none, pulse : TP;"
            + " fell : F_TRIG; late : TOF;")
        .replace("starts := starts + 1;", "").replace("started(CLK",
            "scans := scans + 1; none(IN := TRUE, PT := T#0s);\n"
        + "pulse(IN := scans MOD 2 = 1, PT := T#20ms);\n" + statement + "\nstarted(CLK"));
    Run run = replay("open.st", option, way, "--keep", path("kept.csv"));
    if (way.equals("trap")) {
      assertThat(run.err()).contains("the program stopped by a run-time error",
          "overflow: 40000 lies outside -32768..32767");
    } else {
      assertThat(Files.readString(folder.resolve("kept.csv"))).contains(",starts," + starts + ",");
    }
  }

  /** A task at its own rate, a signal at an address, and a button pressed for less than a run of the task. */
  @Test
  void tasksAndAddressesAndShortPulsesAreTold() throws IOException {
    write("tasks.st", LOGIC.replace("estop_chain, start_button : BOOL;", "estop_chain : BOOL;")
        .replace("started(CLK := start_button)", "started(CLK := %IX0.2)").replace("END_PROGRAM", """
        END_PROGRAM
        PROGRAM Logger VAR n : INT; END_VAR n := n + 1; END_PROGRAM
        CONFIGURATION Site
          TASK Fast(INTERVAL := T#500ms, PRIORITY := 1);
          TASK Slow(INTERVAL := T#2s, PRIORITY := 2);
          PROGRAM lift WITH Fast : Lift;
          PROGRAM log1 WITH Slow : Logger;
        END_CONFIGURATION"""));
    write("site.bindings", "variables\n  start_button at %IX0.2\n");
    write("ride.csv", TRACE.replace("1,start_button,1\n1.2,start_button,0",
        "1.1,start_button,1\n1.2,start_button,0"));
    Run run = replay("tasks.st", "--bindings", path("site.bindings"), "--task", "Slow overrun 3s share 1");
    assertThat(run.err()).doesNotContain("error");
    assertThat(run.out()).contains("19 runs of the task Fast", "runs of the task Slow",
        "runs of the task Slow took long", "of start_button shorter than a scan");
  }

  /** The usual way with a real that does not fit is to stop, whatever becomes of integers. */
  @Test
  void aRealThatDoesNotFitStopsTheProgram() throws IOException {
    write("open.st", LOGIC.replace("starts := starts + 1;", "")
        .replace("started(CLK", "starts := REAL_TO_INT(load * 4000.0);\nstarted(CLK"));
    Run run = replay("open.st", "--overflow", "wrap");
    assertThat(run.status()).isEqualTo(2);
    assertThat(run.err()).contains("the program stopped by a run-time error at",
        "overflow: 40000.0 lies outside -32768..32767");
  }

  @Test
  void aWrongProgramIsToldWithItsPlaces() throws IOException {
    write("wrong.st", LOGIC.replace("starts + 1", "startz + 1").replace("NOT estop_chain", "NOT load"));
    Run run = replay("wrong.st");
    assertThat(run.status()).isEqualTo(2);
    assertThat(run.err()).contains("wrong.st:15:14", "wrong.st:17:15", "startz",
        "the logic has 2 errors, nothing was judged");
  }

  /**
   * The power fails at 3 s, so the lift stops; nobody starts it again. A cold restart forgets the count, a warm one
   * keeps RETAIN only.
   */
  @Test
  void aPowerCutStopsTheProgram() throws IOException {
    Run run = replay("lift.st", "--power-cut", "3s for 1s warm", "--keep", path("kept.csv"));
    assertThat(run.status()).isZero();
    assertThat(Files.readString(folder.resolve("kept.csv")))
        .contains("3000000000,lift_run,0,good").doesNotContain("5050000000,lift_run");
  }
}
