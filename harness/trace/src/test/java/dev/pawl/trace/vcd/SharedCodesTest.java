package dev.pawl.trace.vcd;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Dumps as simulators write them: one identifier code for several names of a net (IEEE Std 1364, from memory), and
 * steps finer than a nanosecond.
 */
class SharedCodesTest {

  private static final long MS = 1_000_000;
  private static final TraceOptions OPTIONS = TraceOptions.of(Books.LIFT);

  @Test
  void everyNameOfANetGetsItsChanges() {
    Recording recording = Recording.of("""
        $timescale 1 ms $end
        $scope module plc $end $var wire 1 ! lift_run $end $upscope $end
        $scope module io $end $var wire 1 ! estop_chain $end $var wire 1 ! lift_run $end $upscope $end
        $enddefinitions $end
        #0 $dumpvars 0! $end
        #5 1!
        #9 0!
        """, OPTIONS);
    assertThat(recording.summary().isRejected()).as("%s", recording.summary().diagnostics()).isFalse();
    assertThat(recording.events()).containsExactly(event(0, 0, 0), event(0, 1, 0), event(5, 0, 1), event(5, 1, 1),
        event(9, 0, 0), event(9, 1, 0));
  }

  private static Recording.Event event(long milliseconds, int signal, long value) {
    return new Recording.Event(milliseconds * MS, signal, value);
  }

  /** Two changes half a nanosecond apart would become one, and what came between would be gone. */
  @Test
  void changesWithinANanosecondAreRefusedEvenLeniently() {
    Recording recording = Recording.of("""
        $timescale 1 ps $end $var wire 1 ! lift_run $end $enddefinitions $end
        #1000 1!
        #1500 0!
        """, OPTIONS.withLenient(true));
    assertThat(recording.summary().isRejected()).isTrue();
    assertThat(recording.summary().diagnostics().get(0).message())
        .isEqualTo("signals change at two times within one nanosecond, the least that is told apart here");
    assertThat(recording.summary().diagnostics().get(0).position().line()).isEqualTo(3);
  }

  /** A mark within a nanosecond at which no signal of the rules changes loses nothing. */
  @Test
  void finerMarksWithoutAChangeAreNoLoss() {
    Recording recording = Recording.of("""
        $timescale 1 ps $end $var wire 1 ! lift_run $end $enddefinitions $end
        #1000 1!
        #1500
        #2250 0!
        """, OPTIONS);
    assertThat(recording.events()).containsExactly(new Recording.Event(1, 0, 1), new Recording.Event(2, 0, 0));
    assertThat(recording.summary().times().finer()).isEqualTo(2);
  }

  /** Two's complement and plain binary at the ends of 64 bits. */
  @Test
  void vectorsMayHaveSixtyFourBits() {
    Recording recording = Recording.of("""
        $timescale 1 ms $end $var reg 64 ! lift_speed $end $var integer 64 " motor_heat $end $var reg 80 # mode $end $enddefinitions $end
        #0 b%1$s ! b%1$s " b%2$s10 #
        #1 b1%2$s ! b1%2$s "
        #2 b1%1$s !
        """.formatted("1".repeat(64), "0".repeat(63)), OPTIONS.withLenient(true));
    assertThat(recording.events()).containsExactly(
        new Recording.Event(0, 2, Books.si(18446744073709551615.0 * 0.44704)),
            new Recording.Event(0, 3, Books.si(-1 + 273.15)),
        new Recording.Event(0, 4, 2), new Recording.Event(MS, 2, Books.si(9223372036854775808.0 * 0.44704)),
        new Recording.Event(MS, 3, Books.si(-9223372036854775808.0)),
            new Recording.Event(2 * MS, 2, EventSink.UNKNOWN));
    assertThat(recording.summary().diagnostics()).extracting(problem -> problem.position().line()).containsExactly(4);
  }

  @ParameterizedTest
  @CsvSource({"5ns, 3, 15", "25 US, 2, 50000", "250 ps, 8, 2", "100 fs, 30000, 3", "3 s, 2, 6000000000",
      "40 ps, 25, 1"})
  void timescalesMayBeOdd(String scale, long mark, long nanoseconds) {
    Recording recording = Recording.of("$timescale %s $end $var wire 1 ! lift_run $end $enddefinitions $end\n#%d 1!\n"
        .formatted(scale, mark), OPTIONS);
    assertThat(recording.events()).containsExactly(new Recording.Event(nanoseconds, 0, 1));
  }
}
