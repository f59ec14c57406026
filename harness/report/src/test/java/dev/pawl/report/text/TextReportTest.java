package dev.pawl.report.text;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.report.SampleRide;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.FindingWords;
import java.util.List;
import org.junit.jupiter.api.Test;

class TextReportTest {

  @Test
  void aTraceReadsLikeThis() {
    assertThat(TextReport.trace(SampleRide.trace(), Style.PLAIN, 1)).isEqualTo("""
        traces/day.csv
          1 broken, 1 undecided, 1 not exercised, 2 held   15 min, 12,345 events

          BROKEN  STOP-01  E-stop stops the lift  critical
          required    when falls(estop_chain) must not lift_run within 500 ms  (rules/sample.rules:12)
          obligations 11 met, 3 missed
          trigger     723.450 s
          break       no response by the deadline, 723.950 s (500 ms after the trigger); it came at
                      724.200 s, 250 ms late
          because     estop_chain became false  at 723.450 s  day.csv:1201
                      lift_run became true      at 700.010 s  day.csv:1102
                      and 2 more

          UNDECIDED  LIFT-01  Lift idles when no train is near  minor
          required    when not occupied(lift) for 20 s must not lift_run within 3 s  (rules/sample.rules:30)
          obligations 6 met, 1 open, 2 cancelled
          reason      1 open when the trace ended
          trigger     899.000 s
          finding     still open when the trace ended at 900.000 s; it had until 902.000 s

          NOT EXERCISED  the trace does not put these rules to the test
          ZONE-01     No dispatch into an occupied zone  (already so 4 times)

          Held by watching only, and not all of it moved
          LIFT-02     watched 15 min; lift_speed never changed

          Margins, smallest first
          STOP-01     -250 ms           at 724.200 s, 750 ms after its trigger
          LIFT-01     at most 1.25 s    at 80.000 s, 1.75 s after its trigger
          LIFT-02     1 mph             at 41.000 s

          ZONE lift  nobody knows how many trains were in it at first
          began with  0 to 1: the stated 0 does not count, since not all flags were seen within 5 s as they
                      were at first

          ZONE lift  its count cannot be right, 2 times
          may mean    a missed or chattering sensor, a roll-back, or trains too close
          seen        a train left while none was counted in, at 300.000 s
          because     crest_flag became unknown  at 300.000 s  day.csv:640
                      and 1 more

          Reading
          counted     3 rows out of order
          counted     2 values replaced by a later one of the same signal and time
          line 88     time 12.000 is earlier than 12.100 before it; row left out
                      and 2 more

        """);
  }

  @Test
  void theClosingCarriesTheCautions() {
    assertThat(TextReport.closing(SampleRide.report(), Style.PLAIN)).isEqualTo("""
          Held, but perhaps never asked: 2 rules do not say what would try them, LIFT-02, STOP-02.

        Pawl supports the judgement of a qualified person and does not replace it.
        A rule that held, held in these traces only; it proves nothing about hardware, wiring or times that were not recorded.
        Local codes, the manufacturer's instructions and licensed practice come first.
        """);
    assertThat(TextReport.closing(SampleRide.report(SampleRide.trace(), SampleRide.trace()), Style.PLAIN))
        .startsWith("""
            All 2 traces: 2 broken, 2 undecided, 2 not exercised, 4 held
              NEVER EXERCISED  the traces together do not put these rules to the test
              ZONE-01     No dispatch into an occupied zone

              Held, but perhaps never asked: 2 rules do not say what would try them, LIFT-02, STOP-02.

            Pawl supports""");
  }

  @Test
  void theClosingCountsTheTracesOfWhichNothingCouldBeJudged() {
    TraceResult unreadable = TraceResult.unreadable("gone.csv",
        new Reading(List.of(), List.of(), 1, "line 3: no time"));
    assertThat(TextReport.closing(SampleRide.report(SampleRide.trace(), unreadable, unreadable), Style.PLAIN))
        .startsWith("All 3 traces: 1 broken, 1 undecided, 1 not exercised, 2 held, 2 traces not read\n");
  }

  @Test
  void oneReplacedValueIsSaidInTheSingular() {
    assertThat(FindingWords.overwritten(1)).isEqualTo("1 value replaced by a later one of the same signal and time");
  }

  @Test
  void colourChangesNoWord() {
    String plain = TextReport.trace(SampleRide.trace(), Style.PLAIN, 3);
    String coloured = TextReport.trace(SampleRide.trace(), new Style(true, 100), 3);
    assertThat(coloured).contains("\u001b[");
    assertThat(coloured.replaceAll("\u001b\\[[0-9;]*m", "")).isEqualTo(plain);
  }

  @Test
  void noLineIsWiderThanTheStyleAllows() {
    assertThat(TextReport.trace(SampleRide.trace(), new Style(false, 72), 3).lines()
        .filter(line -> line.startsWith("              ") || line.startsWith("  break")))
        .isNotEmpty().allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(72));
  }

  @Test
  void aFailureAndAHostileNameAreShownSafely() {
    TraceResult trace = TraceResult.unreadable("a\u001b[2Jb.csv",
        new Reading(List.of(), List.of(), 0, "line 3: bad\u0007"));
    assertThat(TextReport.trace(trace, Style.PLAIN, 1))
        .isEqualTo("a\uFFFD[2Jb.csv\n  not read    line 3: bad\uFFFD\n\n");
  }
}
