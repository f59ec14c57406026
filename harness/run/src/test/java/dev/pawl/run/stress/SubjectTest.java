package dev.pawl.run.stress;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanOptions;
import dev.pawl.logic.SignalBinding;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One run of a small ride: two trains on a flat circle, and tyres that a program runs. */
class SubjectTest {

  private static final String RULES = """
      resolution 10 ms
      input  flag : bool
      input  button : bool
      output run : bool
      rule X-1 "It runs only while the button is pressed" basis practice severity minor never run and not button
      """;
  private static final String RIDE = """
      ride "Small"
      track length 200 m
      point 0 m height 1 m
      point 100 m height 1 m
      cars two length 10 m mass 2000 kg rolling 0.01 drag 0 m2 dog 5 m
      train one of two at 40 m
      train ten of two at 100 m
      tyres some from 0 m to 60 m speed 2 m/s acceleration 1 m/s2 runs with run
      flag flag at 50 m
      """;

  @TempDir
  private Path folder;

  private RunResult run(String statement, String scenario) throws IOException {
    Files.createDirectories(folder.resolve("scenarios"));
    Files.writeString(folder.resolve("small.rules"), RULES);
    Files.writeString(folder.resolve("small.ride"), RIDE);
    Files.writeString(folder.resolve("scenarios/one.scenario"), "lasts 20 s\n" + scenario);
    Files.writeString(folder.resolve("small.st"), "PROGRAM Small VAR_INPUT flag, button : BOOL; END_VAR VAR_OUTPUT "
        + "run : BOOL; END_VAR VAR n : INT; zero : INT; END_VAR " + statement + " END_PROGRAM");
    RuleFiles rules = RuleFiles.load(List.of(folder.resolve("small.rules").toString()));
    RideFiles ride = RideFiles.load(folder.resolve("small.ride").toString(), rules);
    LogicFiles logic = LogicFiles.load(List.of(folder.resolve("small.st").toString()));
    SignalBinding binding = logic.bind(rules, Map.of(), Set.of());
    return new Subject(ride.ride(), rules.book(), logic.compile(binding, LogicOptions.DEFAULT), binding,
        ScanOptions.DEFAULT).run(ride.scenario("one").scenario(), new BitSet());
  }

  @Test
  void saysWhatBrokeWhenAndWhetherOutputsWereTheSame() throws IOException {
    RunResult idle = run("run := button;", "");
    RunResult right = run("run := button;", "at 1 s button = true for 5 s");
    RunResult wrong = run("run := button OR run;", "at 1 s button = true for 5 s");
    assertThat(right.broken()).containsExactly(-1);
    assertThat(right.scans()).isEqualTo(2001);
    assertThat(right.tried().get(0)).isTrue();
    assertThat(wrong.broken()).containsExactly(6_000_000_000L);
    assertThat(List.of(idle.outputs(), right.outputs(), wrong.outputs())).doesNotHaveDuplicates();
    assertThat(run("run := button;", "at 1 s button = true for 5 s").outputs()).isEqualTo(right.outputs());
  }

  /** As in a replay, the ride moves as often as the fastest task runs: 20 s at 5 ms are 4000 steps. */
  @Test
  void theRideMovesAsOftenAsTheFastestTaskRuns() throws IOException {
    RunResult fast = run("run := button; END_PROGRAM CONFIGURATION C RESOURCE R ON X TASK Fast(INTERVAL := T#5ms, "
        + "PRIORITY := 1); PROGRAM it WITH Fast : Small; END_RESOURCE END_CONFIGURATION PROGRAM Other VAR n : INT; "
        + "END_VAR n := 1;", "at 1 s button = true for 5 s");
    assertThat(fast.scans()).isEqualTo(4001);
    assertThat(fast.broken()).containsExactly(-1);
  }

  /** A run-time error stops the program: what comes after is not judged, and that is said. */
  @Test
  void endsWhereTheProgramStops() throws IOException {
    for (String when : List.of("TRUE", "button")) {
      RunResult stopped = run("run := button; IF " + when + " THEN n := 1 / zero; END_IF;", "at 1 s button = true");
      assertThat(stopped.end()).hasValueSatisfying(it -> assertThat(it).contains("the program stopped"));
      assertThat(stopped.scans()).isLessThan(110);
    }
  }

  @Test
  void isReadAsItWasWritten() throws IOException {
    RunResult result = run("run := button OR run;", "at 1 s button = true for 5 s");
    RunResult again = RunResult.of(result.line(), 1).orElseThrow();
    assertThat(again.line()).isEqualTo(result.line());
    assertThat(again.broken()).isEqualTo(result.broken());
    assertThat(RunResult.of("CONTACT:1", 1)).isEmpty();
  }
}
