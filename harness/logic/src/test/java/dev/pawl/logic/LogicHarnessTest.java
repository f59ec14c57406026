package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.logic.ScanOptions.OnError;
import dev.pawl.logic.ScanOptions.Outage;
import dev.pawl.logic.ScanOptions.Restart;
import dev.pawl.logic.code.CodeOptions;
import dev.pawl.logic.runtime.BlockOptions;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class LogicHarnessTest {

  private static final String FOLLOWER = """
      PROGRAM Main
      VAR_INPUT button : BOOL; END_VAR
      VAR_OUTPUT lamp : BOOL; END_VAR
      IF button THEN
        lamp := TRUE;
      ELSE
        lamp := FALSE;
      END_IF;
      END_PROGRAM
      """;
  private static final Books FOLLOWED = new Books().input("button", Books.BOOL).output("lamp", Books.BOOL);
  private static final ScanOptions TEN = ScanOptions.every(10_000_000);
  private static final ScanOptions.Pace JITTER = new ScanOptions.Pace(3_000_000, 0, 0);

  private static ScanOptions scans(ScanOptions.Pace pace, long seed, OnError onError) {
    return new ScanOptions(10_000_000, pace, Map.of(), seed, onError, List.of());
  }

  @Test
  void inputsKeepTheirTimesAndOutputsComeAtTheNextScanWithTheLineThatWroteThem() {
    Replay replay = new Replay(FOLLOWER, FOLLOWED, TEN);
    replay.at(0, "button", 0).at(12, "button", 1).at(30, "button", 0);
    LogicOutcome outcome = replay.end(45);
    assertThat(replay.lines()).containsExactly(
        "0.0 button=0 trace:2", "0.0 lamp=0 test.st:7", "12.0 button=1 trace:3", "20.0 lamp=1 test.st:5",
            "30.0 button=0 trace:4",
        "30.0 lamp=0 test.st:7");
    assertThat(outcome.scans()).isEqualTo(5);
  }

  /** In an element of an array of an instance of an instance; the others write theirs at the same line. */
  @Test
  void anOutputInsideAnInstanceHasTheLineThatWroteIt() {
    CheckedProgram program = TestMachine.check("""
        FUNCTION_BLOCK Light
        VAR_INPUT on : BOOL; END_VAR
        VAR_OUTPUT lit : BOOL; END_VAR
        lit := on;
        END_FUNCTION_BLOCK
        FUNCTION_BLOCK Pair
        VAR_INPUT on : BOOL; END_VAR
        VAR lights : ARRAY[1..2] OF Light; END_VAR
        lights[1](on := NOT on);
        lights[2](on := on);
        END_FUNCTION_BLOCK
        PROGRAM Main
        VAR_INPUT button : BOOL; END_VAR
        VAR one, other : Pair; END_VAR
        other(on := button);
        one(on := FALSE);
        END_PROGRAM
        """);
    Replay replay = new Replay(program, SignalBinding.bind(program, FOLLOWED.book(), Map.of("lamp",
        "Main.other.lights[2].lit")), FOLLOWED, TEN);
    replay.at(0, "button", 0).at(5, "button", 1).end(15);
    assertThat(replay.lines()).containsExactly("0.0 button=0 trace:2", "0.0 lamp=0 test.st:4", "5.0 button=1 trace:3",
        "10.0 lamp=1 test.st:4");
  }

  @Test
  void aChangeShorterThanAScanIsNotSeen() {
    Replay replay = new Replay(FOLLOWER, FOLLOWED, TEN);
    replay.at(0, "button", 0).at(12, "button", 1).at(18, "button", 0).end(45);
    assertThat(replay.lines()).doesNotContain("20.0 lamp=1 test.st:5").hasSize(4);
  }

  @Test
  void anInputAtTheTimeOfAScanIsSeenByIt() {
    Replay replay = new Replay(FOLLOWER, FOLLOWED, TEN);
    replay.at(5, "button", 0).at(15, "button", 1).end(15);
    assertThat(replay.lines()).containsExactly("5.0 button=0 trace:2", "5.0 lamp=0 test.st:7", "15.0 button=1 trace:3",
        "15.0 lamp=1 test.st:5");
  }

  @Test
  void advancingRunsTheScansBeforeThatTimeOnly() {
    Replay replay = new Replay(FOLLOWER, FOLLOWED, TEN);
    replay.at(0, "button", 1).advance(10).at(10, "button", 0).end(10);
    assertThat(replay.lines()).containsExactly("0.0 button=1 trace:2", "0.0 lamp=1 test.st:5", "10.0 advance",
        "10.0 button=0 trace:3", "10.0 lamp=0 test.st:7");
  }

  @Test
  void outputsOfTheTraceThatTheProgramGivesAreLeftOut() {
    Replay replay = new Replay(FOLLOWER, FOLLOWED, TEN);
    replay.at(0, "button", 0).at(0, "lamp", 1).at(25, "lamp", 1);
    assertThat(replay.end(30).replaced()).isEqualTo(2);
    assertThat(replay.lines()).containsExactly("0.0 button=0 trace:2", "0.0 lamp=0 test.st:7");
  }

  @Test
  void anUnknownInputLeavesTheProgramWithTheValueBefore() {
    Replay replay = new Replay(FOLLOWER, FOLLOWED, TEN);
    replay.at(0, "button", 1).at(5, "button", EventSink.UNKNOWN);
    assertThat(replay.end(20).unknownInputs()).isEqualTo(1);
    assertThat(replay.lines()).containsExactly("0.0 button=1 trace:2", "0.0 lamp=1 test.st:5", "5.0 button=? trace:3");
  }

  @Test
  void valuesAreConvertedByUnitAndName() {
    String program = """
        TYPE Mode : (automatic := 7, off, manual); END_TYPE
        PROGRAM Main
        VAR_INPUT speed : REAL; temperature : INT; hold : TIME; wanted : Mode; END_VAR
        VAR_OUTPUT shown : Mode; reference : LREAL; waited : TIME; index : INT; END_VAR
        VAR trips : INT; END_VAR
        shown := wanted;
        reference := speed * 2.0;
        waited := hold + T#500ms;
        index := temperature;
        trips := trips + 1;
        END_PROGRAM
        """;
    Books books = new Books().input("speed", Books.MILES_PER_HOUR).input("temperature", Books.CELSIUS)
        .input("hold", Books.SECONDS)
        .input("wanted", Books.MODE).output("shown", Books.MODE).output("reference", Books.MILES_PER_HOUR)
        .output("waited", Books.SECONDS).internal("trips", Books.COUNT).output("index", Books.CELSIUS);
    Replay replay = new Replay(program, books, TEN);
    replay.at(0, "speed", 4 * 0.44704).at(0, "temperature", 273.15 + 21.4).at(0, "hold", 2.25).at(0, "wanted", 2)
        .end(10);
    assertThat(replay.lines().subList(4, replay.lines().size())).containsExactly(
        "0.0 shown=automatic test.st:6", "0.0 reference=3.57632 test.st:7", "0.0 waited=2.75 test.st:8",
        "0.0 trips=1.0 test.st:10", "0.0 index=294.15 test.st:9", "10.0 trips=2.0 test.st:10");
  }

  @Test
  void aRunTimeErrorStopsTheControllerAndNamesLineAndScan() {
    String program = FOLLOWER.replace("lamp := TRUE;", "lamp := 10 / BOOL_TO_INT(NOT button) > 1;");
    Replay replay = new Replay(program, FOLLOWED, TEN);
    LogicOutcome outcome = replay.at(0, "button", 0).at(12, "button", 1).at(25, "button", 0).end(100);
    assertThat(outcome.errors()).containsExactly(new LogicError(3, 20_000_000, new ProgramLine("test.st", 5),
        "division by zero"));
    assertThat(outcome.scans()).isEqualTo(3);
    assertThat(outcome.errors().get(0)).hasToString("test.st:5: division by zero (scan 3)");
  }

  @Test
  void aControllerThatStopsTurnsItsOutputsOff() {
    String program = FOLLOWER.replace("END_IF;", "END_IF;\nIF stop THEN lamp := 1 / BOOL_TO_INT(NOT stop) = 1; END_IF;")
        .replace("button : BOOL;", "button, stop : BOOL;");
    Books books = new Books().input("button", Books.BOOL).output("lamp", Books.BOOL).input("stop", Books.BOOL);
    Replay replay = new Replay(program, books, TEN);
    replay.at(0, "button", 1).at(0, "stop", 0).at(15, "stop", 1).end(50);
    assertThat(replay.lines()).endsWith("20.0 lamp=0 -");
  }

  @Test
  void afterAnErrorTheNextScanRunsByOption() {
    String program = FOLLOWER.replace("lamp := TRUE;", "lamp := 10 / BOOL_TO_INT(NOT button) > 1;");
    Replay replay = new Replay(program, FOLLOWED, scans(ScanOptions.Pace.EXACT, 1, OnError.NEXT_SCAN));
    LogicOutcome outcome = replay.at(0, "button", 1).at(25, "button", 0).end(40);
    assertThat(outcome.errorCount()).isEqualTo(3);
    assertThat(outcome.scans()).isEqualTo(5);
  }

  @Test
  void theWatchdogEndsAnEndlessLoop() {
    String program = FOLLOWER.replace("lamp := TRUE;", "WHILE button DO lamp := NOT lamp; END_WHILE;");
    LogicOutcome outcome = new Replay(program, FOLLOWED, TEN).at(0, "button", 1).end(50);
    assertThat(outcome.errors()).hasSize(1);
    assertThat(outcome.errors().get(0)).hasToString(
        "test.st:5: the scan ran more statements in loops and calls than the watchdog allows, so it counts as endless "
            + "(scan 1)");
  }

  /** Each function calls the one before twice: 2^40 calls, and no loop. */
  @Test
  void theWatchdogEndsCallsThatDouble() {
    StringBuilder text = new StringBuilder("FUNCTION F0 : INT VAR_INPUT v : INT; END_VAR F0 := v; END_FUNCTION\n");
    for (int i = 1; i <= 40; i++) {
      text.append("FUNCTION F" + i + " : INT VAR_INPUT v : INT; END_VAR F" + i + " := F" + (i - 1) + "(v) + F" + (i - 1)
          + "(v); END_FUNCTION\n");
    }
    ScanMachine machine = TestMachine.of(text + "PROGRAM P VAR n : INT; END_VAR n := F40(1); END_PROGRAM");
    assertThat(machine.scan(0)).hasValueSatisfying(error -> {
      assertThat(error.message()).contains("than the watchdog allows");
      assertThat(error.place().line()).isPositive();
    });
  }

  @Test
  void aLongLoopIsAllowedByOption() {
    String program =
        "PROGRAM P VAR i : DINT; n : DINT; END_VAR FOR i := 1 TO 10000000 DO n := n + 1; END_FOR; END_PROGRAM";
    assertThat(TestMachine.of(program).scan(0)).isPresent();
    ScanMachine machine = TestMachine.of(program, new LogicOptions(CodeOptions.DEFAULT,
        BlockOptions.DEFAULT, 30_000_000));
    assertThat(machine.scan(0)).isEmpty();
    assertThat(machine.word("n")).isEqualTo(10_000_000);
  }

  /** No number, whatever the sign of its bits, is told as one. */
  @Test
  void anOutputThatIsNoNumberIsUnknown() {
    VariableConversion conversion = VariableConversion.between(Books.COUNT, Elementary.LREAL).orElseThrow();
    for (long word : new long[] {0x7ff8_0000_0000_0000L, 0xfff8_0000_0000_0000L, 0x7ff0_0000_0000_0000L,
        0xfff0_0000_0000_0001L}) {
      assertThat(conversion.toValue(word)).as("%x", word).isEqualTo(EventSink.UNKNOWN);
    }
  }

  private static final String RETAINING = """
      PROGRAM Main
      VAR_INPUT pulse : BOOL; END_VAR
      VAR RETAIN total : INT; END_VAR
      VAR_OUTPUT shown, fresh : INT; END_VAR
      VAR edge : R_TRIG; END_VAR
      edge(CLK := pulse);
      IF edge.Q THEN
        total := total + 1;
        fresh := fresh + 1;
      END_IF;
      shown := total;
      END_PROGRAM
      """;
  private static final Books COUNTED =
      new Books().input("pulse", Books.BOOL).output("shown", Books.COUNT).output("fresh", Books.COUNT);

  private static List<String> aroundAnOutage(Restart restart) {
    Outage outage = new Outage(25_000_000, 95_000_000, restart);
    Replay replay = new Replay(RETAINING, COUNTED, TEN.withOutages(List.of(outage)));
    replay.at(0, "pulse", 0).at(5, "pulse", 1).at(50, "pulse", 0).at(115, "pulse", 1).end(130);
    return replay.lines().stream().filter(line -> !line.contains("pulse")).toList();
  }

  @Test
  void aWarmRestartKeepsRetainedVariables() {
    assertThat(aroundAnOutage(Restart.WARM)).containsExactly("0.0 shown=0.0 test.st:11", "0.0 fresh=0.0 -",
        "10.0 shown=1.0 test.st:11",
        "10.0 fresh=1.0 test.st:9", "25.0 shown=0.0 -", "25.0 fresh=0.0 -", "100.0 shown=1.0 test.st:11",
        "120.0 shown=2.0 test.st:11", "120.0 fresh=1.0 test.st:9");
  }

  @Test
  void aColdRestartKeepsNothing() {
    assertThat(aroundAnOutage(Restart.COLD)).containsExactly("0.0 shown=0.0 test.st:11", "0.0 fresh=0.0 -",
        "10.0 shown=1.0 test.st:11",
        "10.0 fresh=1.0 test.st:9", "25.0 shown=0.0 -", "25.0 fresh=0.0 -", "120.0 shown=1.0 test.st:11",
        "120.0 fresh=1.0 test.st:9");
  }

  private static final String TICKING = """
      PROGRAM Main
      VAR_INPUT button : BOOL; END_VAR
      VAR_OUTPUT ticks : INT; END_VAR
      ticks := ticks + 1;
      END_PROGRAM
      """;
  private static final Books TICKS = new Books().input("button", Books.BOOL).output("ticks", Books.COUNT);

  private static List<String> ticks(ScanOptions options) {
    Replay replay = new Replay(TICKING, TICKS, options);
    replay.at(0, "button", 0).end(100);
    return replay.lines();
  }

  @Test
  void jitterIsLateByLessThanItsBoundAndTheSameForTheSameSeed() {
    ScanOptions jittered = scans(JITTER, 42, OnError.STOP);
    List<String> first = ticks(jittered);
    assertThat(first).isEqualTo(ticks(jittered)).isNotEqualTo(ticks(scans(JITTER, 43, OnError.STOP))).hasSize(11);
    for (int scan = 1; scan < 10; scan++) {
      double time = Double.parseDouble(first.get(scan + 1).split(" ")[0]);
      assertThat(time).isBetween(scan * 10.0, scan * 10.0 + 3);
    }
  }

  @Test
  void scansThatFallDueDuringAnOverrunAreSkipped() {
    Replay replay = new Replay(TICKING, TICKS, scans(new ScanOptions.Pace(0, 1, 25_000_000), 1, OnError.STOP));
    LogicOutcome outcome = replay.at(0, "button", 0).end(100);
    assertThat(replay.lines()).containsExactly("0.0 button=0 trace:2", "0.0 ticks=1.0 test.st:4",
        "30.0 ticks=2.0 test.st:4", "60.0 ticks=3.0 test.st:4", "90.0 ticks=4.0 test.st:4");
    assertThat(outcome.overruns()).isEqualTo(4);
    assertThat(outcome.skipped()).isEqualTo(8);
  }

  @Test
  void timersSeeVirtualTime() {
    String program = """
        PROGRAM Main
        VAR_INPUT button : BOOL; END_VAR
        VAR_OUTPUT late : BOOL; END_VAR
        VAR delay : TON; END_VAR
        delay(IN := button, PT := T#25ms, Q => late);
        END_PROGRAM
        """;
    Books books = new Books().input("button", Books.BOOL).output("late", Books.BOOL);
    Replay replay = new Replay(program, books, TEN);
    replay.at(0, "button", 0).at(7, "button", 1).end(100);
    assertThat(replay.lines()).endsWith("40.0 late=1 test.st:5");
  }
}
