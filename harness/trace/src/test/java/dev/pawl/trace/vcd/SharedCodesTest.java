package dev.pawl.trace.vcd;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import org.junit.jupiter.api.Test;

/**
 * Dumps as simulators write them: one identifier code for several names of a net (IEEE Std 1364, from memory), and steps finer
 * than a nanosecond.
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
    assertThat(recording.summary().finerTimes()).isEqualTo(2);
  }
}
