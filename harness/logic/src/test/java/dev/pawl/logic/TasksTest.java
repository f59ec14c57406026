package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * Configurations, resources and tasks, run. IEC 61131-3:2013, clause 6.8, from memory: INTERVAL gives the period, a
 * rising edge of SINGLE one run, 0 is the most urgent priority, and inputs and outputs of a program are connected where
 * its instance is declared.
 */
class TasksTest {

  private static final String COUNTERS = """
      PROGRAM Counter VAR_INPUT step : INT := 1; END_VAR VAR_OUTPUT sum : INT; END_VAR sum := sum + step; END_PROGRAM
      PROGRAM Follow VAR_EXTERNAL button, lamp : BOOL; END_VAR lamp := button; END_PROGRAM
      """;

  private static String configuration(String body) {
    return "CONFIGURATION C\nVAR_GLOBAL lamp, kick : BOOL; button AT %IX0.0 : BOOL; n : INT := 5; m : INT; END_VAR\n"
        + body + "\nEND_CONFIGURATION\n" + COUNTERS;
  }

  private static final Books LAMP = new Books().input("button", Books.BOOL).output("lamp", Books.BOOL);

  private static Replay replay(String body, ScanOptions options) {
    return new Replay(configuration(body), LAMP, options);
  }

  @Test
  void eachTaskRunsAtItsOwnRate() {
    Replay replay = replay("""
        RESOURCE R ON any
          TASK Fast(INTERVAL := T#10ms, PRIORITY := 1);
          TASK Slow(INTERVAL := T#50ms, PRIORITY := 2);
          PROGRAM slow WITH Slow : Counter;
          PROGRAM fast WITH Fast : Follow;
        END_RESOURCE""", ScanOptions.DEFAULT);
    replay.at(0, "button", 0).at(12, "button", 1);
    LogicOutcome outcome = replay.end(100);
    assertThat(outcome.tasks()).extracting(LogicOutcome.TaskRuns::name, LogicOutcome.TaskRuns::runs)
        .containsExactly(tuple("Fast", 11L),
            tuple("Slow", 3L));
    assertThat(outcome.scans()).isEqualTo(14);
    assertThat(replay.lines()).contains("20.0 lamp=1 test.st:11");
  }

  /** A slow task sees the inputs as they are when it starts, and its outputs come then. */
  @Test
  void aSlowTaskTakesItsInputsAtItsOwnTimes() {
    Replay replay = replay("""
        TASK Slow(INTERVAL := T#50ms, PRIORITY := 2);
        PROGRAM p WITH Slow : Follow;""", ScanOptions.DEFAULT);
    replay.at(0, "button", 0).at(12, "button", 1).at(40, "button", 0).at(60, "button", 1);
    LogicOutcome outcome = replay.end(110);
    assertThat(replay.lines()).filteredOn(line -> line.contains("lamp"))
        .containsExactly("0.0 lamp=0 test.st:7", "100.0 lamp=1 test.st:7");
    assertThat(outcome.missed()).containsExactly(new LogicOutcome.Missed(0, 1, 12_000_000));
  }

  /** A pulse that a scan saw is none that was missed, and neither is a change at the same instant. */
  @Test
  void onlyWhatNoScanSawIsMissed() {
    Replay replay = new Replay("PROGRAM P VAR_INPUT button : BOOL; END_VAR VAR_OUTPUT lamp : BOOL; END_VAR "
        + "lamp := button; END_PROGRAM", LAMP, ScanOptions.DEFAULT);
    replay.at(0, "button", 0).at(9, "button", 1).at(11, "button", 0).at(21, "button", 1).at(31, "button", 0)
        .at(42, "button", 1).at(42, "button", 0);
    assertThat(replay.end(60).missed()).isEmpty();
  }

  /** That another task runs meanwhile, which does not read the button, shows the program nothing of it. */
  @Test
  void whatOnlyATaskSawThatDoesNotReadItIsMissed() {
    Replay replay = replay("""
        TASK Fast(INTERVAL := T#10ms, PRIORITY := 1);
        TASK Slow(INTERVAL := T#50ms, PRIORITY := 2);
        PROGRAM fast WITH Fast : Counter;
        PROGRAM slow WITH Slow : Follow;""", ScanOptions.DEFAULT);
    replay.at(0, "button", 0).at(12, "button", 1).at(32, "button", 0);
    assertThat(replay.end(110).missed()).containsExactly(new LogicOutcome.Missed(0, 1, 12_000_000));
  }

  @Test
  void aRisingEdgeOfSingleIsOneRun() {
    Replay replay = replay("""
        TASK Event(SINGLE := button, PRIORITY := 0);
        PROGRAM p WITH Event : Counter(step := n, sum => m);
        PROGRAM q : Follow;""", ScanOptions.DEFAULT);
    replay.at(0, "button", 1).at(12, "button", 0).at(23, "button", 1).at(24, "button", 0).at(27, "button", 1);
    LogicOutcome outcome = replay.end(100);
    assertThat(outcome.tasks()).extracting(LogicOutcome.TaskRuns::name, LogicOutcome.TaskRuns::runs)
        .contains(tuple("Event", 2L));
  }

  /** With INTERVAL too it runs by that as long as SINGLE is false. */
  @Test
  void singleHoldsThePeriodUp() {
    Replay replay = replay("""
        TASK Both(SINGLE := button, INTERVAL := T#10ms, PRIORITY := 0);
        PROGRAM p WITH Both : Follow;""", ScanOptions.DEFAULT);
    replay.at(0, "button", 0).at(25, "button", 1).at(65, "button", 0);
    LogicOutcome outcome = replay.end(80);
    assertThat(outcome.scans()).isEqualTo(3 + 1 + 2);
    assertThat(replay.lines()).contains("25.0 lamp=1 test.st:7", "70.0 lamp=0 test.st:7");
  }

  @Test
  void inputsAndOutputsAreConnectedAndInstancesAreApart() {
    ScanMachine machine = TestMachine.of(configuration("""
        TASK T(INTERVAL := T#10ms, PRIORITY := 1);
        PROGRAM one WITH T : Counter(step := n, sum => m);
        PROGRAM two WITH T : Counter;"""));
    TestMachine.scanned(machine);
    machine.scan(10_000_000);
    assertThat(machine.word("one.sum")).isEqualTo(10);
    assertThat(machine.word("m")).isEqualTo(10);
    assertThat(machine.word("two.sum")).isEqualTo(2);
  }

  /** Of two tasks that fall due together the more urgent runs first, wherever it is declared. */
  @Test
  void theMoreUrgentRunsFirst() {
    String programs = "PROGRAM A VAR_EXTERNAL m : INT; END_VAR m := m * 10 + 1; END_PROGRAM\n"
        + "PROGRAM B VAR_EXTERNAL m : INT; END_VAR m := m * 10 + 2; END_PROGRAM\n";
    ScanMachine machine = TestMachine.of(programs + configuration("""
        TASK Late(INTERVAL := T#10ms, PRIORITY := 7);
        TASK Early(INTERVAL := T#10ms, PRIORITY := 0);
        PROGRAM a WITH Late : A;
        PROGRAM b WITH Early : B;"""));
    assertThat(TestMachine.scanned(machine).word("m")).isEqualTo(21);
  }

  @Test
  void eachResourceHasItsGlobalsAndItsProcessor() {
    ScanMachine machine = TestMachine.of("""
        PROGRAM P VAR_EXTERNAL n : INT; END_VAR n := n + 1; END_PROGRAM
        CONFIGURATION C
          RESOURCE Lift ON a VAR_GLOBAL n : INT := 10; END_VAR PROGRAM p1 : P; END_RESOURCE
          RESOURCE Brake ON b VAR_GLOBAL n : INT := 20; END_VAR PROGRAM p2 : P; END_RESOURCE
        END_CONFIGURATION""");
    TestMachine.scanned(machine);
    assertThat(machine.word("Lift.n")).isEqualTo(11);
    assertThat(machine.word("Brake.n")).isEqualTo(21);
  }

  @Test
  void aLongRunHoldsUpWhatIsLessUrgentAndNotWhatIsMore() {
    String body = """
        TASK Fast(INTERVAL := T#10ms, PRIORITY := %d);
        TASK Slow(INTERVAL := T#100ms, PRIORITY := 5);
        PROGRAM f WITH Fast : Follow;
        PROGRAM s WITH Slow : Counter;""";
    ScanOptions late = new ScanOptions(10_000_000, ScanOptions.Pace.EXACT,
        Map.of("SLOW", new ScanOptions.Pace(0, 1, 35_000_000)), 1, ScanOptions.OnError.STOP, List.of());
    Replay interrupted = replay(body.formatted(1), late);
    interrupted.at(0, "button", 0);
    assertThat(interrupted.end(95).tasks().get(0)).isEqualTo(new LogicOutcome.TaskRuns("Fast", 10, 0, 0));
    Replay held = replay(body.formatted(9), late);
    held.at(0, "button", 0);
    LogicOutcome outcome = held.end(95);
    assertThat(outcome.tasks().get(0)).isEqualTo(new LogicOutcome.TaskRuns("Slow", 1, 1, 0));
    assertThat(outcome.tasks().get(1).runs()).isEqualTo(7);
  }

  @Test
  void aProgramRetainKeepsAllItsVariables() {
    ScanMachine machine = TestMachine.of(configuration("""
        PROGRAM RETAIN kept : Counter;
        PROGRAM lost : Counter;"""));
    TestMachine.scanned(machine);
    machine.warmRestart();
    assertThat(machine.word("kept.sum")).isEqualTo(1);
    assertThat(machine.word("lost.sum")).isZero();
  }
}
