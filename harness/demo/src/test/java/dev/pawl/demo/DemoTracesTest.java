package dev.pawl.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The traces hold what their scenarios say, by the rows themselves and with no rule involved. */
class DemoTracesTest {

  private static final Path RIDE = Path.of("..", "..", "fixtures", "kestrel-ridge");

  @Test
  void writesOneTracePerScenario(@TempDir Path folder) throws IOException {
    Path out = Path.of("").toAbsolutePath().relativize(folder.toRealPath()).resolve("traces");
    List<DemoTraces.DemoTrace> traces = DemoTraces.write(RIDE, out);
    assertThat(traces).extracting(trace -> trace.file().getParent()).containsOnly(out);
    assertThat(traces).extracting(DemoTraces.DemoTrace::name).containsExactly("ordinary-two-hours", "lost-idle-timer",
        "occupied-dispatch", "late-drive-stop", "chattering-flag", "roll-back", "slack-chain", "tail-over-flag",
        "stops-at-open-brakes", "desk-mistakes");
    assertThat(traces).allSatisfy(trace -> assertThat(Files.readString(trace.file()))
        .startsWith("time,signal,value\n"));
  }

  @Test
  void writesTheSameBytesEveryTime() throws IOException {
    assertThat(trace("chattering-flag")).isEqualTo(trace("chattering-flag"));
  }

  @Test
  void everyDispatchOfTheTimetableHappensAndGoesOverTheCrest() throws IOException {
    String trace = trace("ordinary-two-hours");
    assertThat(count(trace, ",station_release,true")).isEqualTo(94);
    assertThat(count(trace, ",crest_flag,true")).isEqualTo(94);
    assertThat(trace).contains("2026-05-16T11:00:00.000Z,brake_air");
  }

  @Test
  void trainsNeverTouch() throws IOException {
    DemoRide ride = DemoRide.open(RIDE);
    for (String scenario : DemoRide.RECORDED) {
      assertThat(DemoTraces.run(ride, ride.scenario(scenario), Writer.nullWriter())).as(scenario).isGreaterThan(3);
    }
  }

  @Test
  void theLiftNeverIdlesWithoutItsTimer() throws IOException {
    assertThat(trace("lost-idle-timer")).contains(",lift_reference,2.70").doesNotContain(",lift_reference,0.30");
  }

  @Test
  void theDriveStopsLateByWhatTheScenarioSays() throws IOException {
    assertThat(trace("late-drive-stop")).contains("2026-05-16T09:04:00.000Z,estop_chain,false",
        "2026-05-16T09:04:00.740Z,lift_run,false");
  }

  @Test
  void theFlagBouncesTwiceWhenTheThirdTrainLeavesIt() throws IOException {
    assertThat(count(trace("chattering-flag"), ",mid_in_flag,true")).isEqualTo(5 + 2);
  }

  /**
   * The train comes down over both flags again, the upper one first, and stays between the pair's second crossing and
   * the base.
   */
  @Test
  void theThirdTrainRollsBackOverTheTwoFlags() throws IOException {
    String trace = trace("roll-back");
    assertThat(count(trace, ",backstop_low_flag,true")).isEqualTo(3 + 1);
    assertThat(count(trace, ",backstop_high_flag,true")).isEqualTo(3 + 1);
    assertThat(count(trace, ",base_flag,true")).isEqualTo(3);
    assertThat(trace.lastIndexOf(",backstop_high_flag,true")).isLessThan(trace.lastIndexOf(",backstop_low_flag,true"));
  }

  private static String trace(String name) throws IOException {
    DemoRide ride = DemoRide.open(RIDE);
    StringWriter out = new StringWriter();
    DemoTraces.run(ride, ride.scenario(name), out);
    return out.toString();
  }

  private static int count(String text, String part) {
    return (text.length() - text.replace(part, "").length()) / part.length();
  }
}
