package dev.pawl.trace;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.Columns;
import dev.pawl.trace.time.TimeForm;
import dev.pawl.trace.intake.ProblemCount;
import dev.pawl.trace.intake.ProblemKind;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is left out, counted and shown, and what is sent on all the same. */
class LenientReadingTest {

  private static final long MS = 1_000_000;
  private static final TraceOptions STRICT = TraceOptions.of(Books.LIFT);

  private static final String MIXED = """
      time_ms,signal,value,quality
      10,lift_run,1,good
      20,lift_run
      22,lift_run,7,good
      soon,lift_run,1,good
      25,estop_chain,1,good
      24,lift_run,0,good
      25,estop_chain,1,good
      26,pump,1,good
      27,pump,0,good
      28,lift_run,0,splendid
      29,lift_run,0,good
      """;

  @Test
  void strictReadingRejectsAndCountsAll() {
    TraceSummary summary = Recording.of(MIXED, STRICT).summary();
    assertThat(summary.outcome()).isEqualTo(TraceSummary.Outcome.REJECTED);
    assertThat(summary.problemLine())
        .isEqualTo("8 problems: 1 x malformed row (first in line 3), 1 x wrong time (first in line 5), "
        + "1 x row out of order (first in line 7), 1 x duplicate row (first in line 8), 2 x unbound tag (first in "
        + "line 9), "
        + "1 x wrong value (first in line 4), 1 x unknown quality (first in line 11)");
    assertThat(summary.diagnostics()).as("an unbound tag is told of once").hasSize(7);
  }

  @Test
  void lenientReadingLeavesOutWhatIsBad() {
    Recording recording = Recording.of(MIXED, STRICT.withLenient(true));
    assertThat(recording.events()).containsExactly(new Recording.Event(10 * MS, 0, 1),
        new Recording.Event(10 * MS + 1, 0, EventSink.UNKNOWN), new Recording.Event(25 * MS, 1, 1),
        new Recording.Event(29 * MS, 0, 0));
    assertThat(recording.lines()).containsExactly(2L, 3L, 6L, 12L);
    assertThat(recording.summary().outcome()).isEqualTo(TraceSummary.Outcome.COMPLETE);
    assertThat(recording.summary().problemTotal()).isEqualTo(8);
    assertThat(recording.summary().silent()).containsExactly(2, 3, 4);
  }

  /** The row may have been of any signal: of the e-stop as well. */
  @ParameterizedTest
  @ValueSource(strings = {"20,estop_chain", "soon,estop_chain,0", "20;estop_chain;0"})
  void aRowOfNobodyKnowsWhatSignalLeavesAllInDoubtUntilTheirNextRows(String lost) {
    Recording recording = Recording.of("time_ms,signal,value\n10,lift_run,1\n10,estop_chain,1\n" + lost
        + "\n10,lift_run,0\n30,lift_run,1\n40,estop_chain,0\n", STRICT.withLenient(true));

    assertThat(recording.events()).containsExactly(new Recording.Event(10 * MS, 0, 1),
        new Recording.Event(10 * MS, 1, 1), new Recording.Event(10 * MS, 0, 0),
        new Recording.Event(10 * MS + 1, 1, EventSink.UNKNOWN), new Recording.Event(30 * MS, 0, 1),
        new Recording.Event(40 * MS, 1, 0));
  }

  /** At the end of summer time an hour is there twice: who knows which rows are of the second. */
  @Test
  void aRowThatComesLateLeavesItsSignalInDoubtHoweverOldItIs() {
    Recording recording =
        Recording.of("time_ms,signal,value\n10,estop_chain,1\n20,lift_run,1\n5,estop_chain,0\n30,lift_run,0\n",
        STRICT.withLenient(true));

    assertThat(recording.events()).containsExactly(new Recording.Event(10 * MS, 1, 1),
        new Recording.Event(20 * MS, 0, 1), unknown(20, 1), new Recording.Event(30 * MS, 0, 0));
  }

  /** Where every row is left out nothing was read, and a verdict would rest on nothing. */
  @Test
  void aTraceOfWhichNothingIsLeftIsRefused() {
    Recording recording = Recording.of("time_ms,signal,value\nsoon,lift_run,1\nlater,lift_run,0\n",
        STRICT.withLenient(true));
    assertThat(recording.summary().outcome()).isEqualTo(TraceSummary.Outcome.REJECTED);
    assertThat(recording.summary().problemLine()).isEqualTo("2 problems: 2 x wrong time (first in line 2)");
  }

  private static Recording.Event unknown(long milliseconds, int signal) {
    return new Recording.Event(milliseconds * MS, signal, EventSink.UNKNOWN);
  }

  /** A value that cannot be used says that the one before need not hold any more; to keep that would be to guess. */
  @ParameterizedTest
  @ValueSource(strings = {
      "time_ms,signal,value\n10,lift_run,1\n20,lift_run,ON\n30,lift_run,0\n",
      "time_ms,signal,value,quality\n10,lift_run,1,good\n20,lift_run,1,splendid\n30,lift_run,0,good\n",
      "time_ms,lift_run\n10,1\n20,ON\n30,0\n",
      "time_ms,lift_run\n10,1\n20,\"ON\"\n30,0\n",
      "{\"time_ms\":10,\"signal\":\"lift_run\",\"value\":1}\n{\"time_ms\":20,\"signal\":\"lift_run\",\"value\":\"ON\"}\n"
          + "{\"time_ms\":30,\"signal\":\"lift_run\",\"value\":0}\n",
      "$timescale 1ms $end $var wire 2 ! lift_run $end $enddefinitions $end\n#10 b1 !\n#20 b10 !\n#30 b0 !\n"})
  void aSignalWhoseValueCannotBeUsedBecomesUnknown(String trace) {
    Recording recording = Recording.of(trace, STRICT.withLenient(true));
    assertThat(recording.events()).containsExactly(new Recording.Event(10 * MS, 0, 1), unknown(20, 0),
        new Recording.Event(30 * MS, 0, 0));
    assertThat(recording.summary().problemTotal()).isEqualTo(1);
  }

  /**
   * The row at 15 ms is newer than what is known of the lift, the one at 5 ms is not: that says nothing about the
   * present.
   */
  @ParameterizedTest
  @ValueSource(strings = {
      "time_ms,signal,value\n10,lift_run,1\n20,estop_chain,1\n15,lift_run,0\n5,lift_run,0\n30,lift_run,0\n",
      "time_ms,lift_run,estop_chain\n10,1,\n20,,1\n15,0,\n5,0,\n30,0,\n"})
  void aSignalWhoseNewerRowComesTooLateBecomesUnknown(String trace) {
    Recording recording = Recording.of(trace, STRICT.withLenient(true));
    assertThat(recording.events()).containsExactly(new Recording.Event(10 * MS, 0, 1),
        new Recording.Event(20 * MS, 1, 1), unknown(20, 0), new Recording.Event(30 * MS, 0, 0));
    assertThat(recording.summary().problems()).containsExactly(new ProblemCount(ProblemKind.OUT_OF_ORDER, 2, 4));
  }

  @Test
  void onlyTheFirstProblemsAreDescribedButAllAreCounted() {
    String trace = "time_ms,signal,value\n" + "x,lift_run,1\n".repeat(1000);
    TraceSummary summary = Recording.of(trace, STRICT).summary();
    assertThat(summary.diagnostics()).hasSize(TraceOptions.LISTED);
    assertThat(summary.problems()).containsExactly(new ProblemCount(ProblemKind.WRONG_TIME, 1000, 2));
    assertThat(Recording.of(trace, STRICT.withListed(3)).summary().diagnostics()).hasSize(3);
  }

  @Test
  void sameSignalTwiceAtOneTimeIsNoProblem() {
    Recording recording = Recording.of("time_ms,signal,value\n5,lift_run,1\n5,lift_run,0\n5,lift_run,1\n", STRICT);
    assertThat(recording.summary().problems()).isEmpty();
    assertThat(recording.events()).hasSize(3);
  }

  @Test
  void signalsThatNoRuleNeedsAreCheckedButNotSent() {
    boolean[] needed = {false, true, false, false, false};
    Recording recording = Recording.of("""
        time_ms,signal,value
        10,lift_run,1
        20,estop_chain,1
        30,lift_run,9
        40,lift_speed,3
        """, STRICT.withNeeded(needed).withLenient(true));
    assertThat(recording.events()).containsExactly(new Recording.Event(20 * MS, 1, 1));
    assertThat(recording.advances()).as("first and last time").containsExactly(10 * MS, 40 * MS);
    assertThat(recording.summary().problems()).containsExactly(new ProblemCount(ProblemKind.WRONG_VALUE, 1, 4));
    assertThat(recording.summary().counts().events()).as("the one that made its signal unknown among them")
        .isEqualTo(4);
    assertThat(recording.summary().counts().sent()).isEqualTo(1);
    assertThat(recording.summary().times().last()).hasValue(40 * MS);
  }

  @Test
  void tagsLeftOutOnPurposeAreNoProblemAndStillPartOfTheTrace() {
    Bindings ignoring = new Bindings(TimeForm.UNSTATED, Columns.DEFAULT, List.of(), List.of("pump", "plc.*"));
    Recording recording = Recording.of("time_ms,signal,value\n5,pump,on\n6,lift_run,1\n7,plc.beat,?\n9,plc.beat,?\n",
        STRICT.withBindings(ignoring));
    assertThat(recording.summary().problems()).isEmpty();
    assertThat(recording.summary().times().first()).hasValue(5 * MS);
    assertThat(recording.summary().times().last()).hasValue(9 * MS);
    assertThat(recording.events()).containsExactly(new Recording.Event(6 * MS, 0, 1));
  }

  /**
   * The first row of a left-out tag and a quoted one go the long way, the later ones the short one; both check the
   * number of fields.
   */
  @Test
  void rowsOfLeftOutTagsStillNeedTimeOrderAndFields() {
    Bindings ignoring = new Bindings(TimeForm.UNSTATED, Columns.DEFAULT, List.of(), List.of("pump"));
    TraceSummary summary = Recording.of("time_ms,signal,value\n5,pump,1\n6,pump,\n7,pump\n8,pump,1,2\n"
        + "9,pump,\"a,b\"\n4,pump,1\nx,pump,1\n"
        + "10,pump,0\r\n11,pump,a\"b\n", STRICT.withBindings(ignoring)).summary();
    assertThat(summary.problems()).containsExactly(new ProblemCount(ProblemKind.MALFORMED, 3, 4),
        new ProblemCount(ProblemKind.WRONG_TIME, 1, 8), new ProblemCount(ProblemKind.OUT_OF_ORDER, 1, 7));
    assertThat(summary.times().last()).hasValue(10 * MS);
  }

  @Test
  void thousandsOfUnboundTagsAreAllCounted() {
    StringBuilder trace = new StringBuilder("time_ms,signal,value\n");
    for (int i = 0; i < 6000; i++) {
      trace.append(i).append(",tag").append(i % 5000).append(",1\n");
    }
    TraceSummary summary = Recording.of(trace.toString(), STRICT).summary();
    assertThat(summary.problems()).containsExactly(new ProblemCount(ProblemKind.UNBOUND, 6000, 2));
  }
}
