package dev.pawl.engine.part;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.TraceOutcome;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Every event passes here before any rule sees it: whether it changes anything, whether it is in order, what the trace held. */
class ArrivalsTest {
  private final Arrivals arrivals = new Arrivals(2);

  @Test
  void anEventChangesSomethingWhereItsSignalHadAnotherValue() {
    assertThat(arrivals.take(5, 0, EventSink.UNKNOWN)).isFalse();
    assertThat(arrivals.take(6, 0, 1)).isTrue();
    assertThat(arrivals.take(7, 0, 1)).isFalse();
    assertThat(arrivals.take(7, 1, 1)).isTrue();
    assertThat(arrivals.take(8, 0, 0)).isTrue();
    assertThat(arrivals.take(8, 0, EventSink.UNKNOWN)).isTrue();
  }

  @Test
  void countsEventsAndTheInstantsTheyLieBetween() {
    assertThat(arrivals.haveBegun()).isFalse();
    assertThat(arrivals.now()).isZero();
    arrivals.take(-5, 0, 1);
    arrivals.take(-5, 0, 0);
    arrivals.take(-5, 1, 0);
    arrivals.moveTo(9);

    TraceOutcome outcome = arrivals.outcome(List.of());
    assertThat(outcome.start()).isEqualTo(-5);
    assertThat(outcome.end()).isEqualTo(9);
    assertThat(outcome.events()).isEqualTo(3);
    assertThat(outcome.overwritten()).isEqualTo(1);
    assertThat(arrivals.haveBegun()).isTrue();
    assertThat(arrivals.now()).isEqualTo(9);
  }

  @Test
  void refusesWhatIsOutOfOrderAndKeepsWhatItHad() {
    arrivals.take(5, 0, 1);

    assertThatIllegalArgumentException().isThrownBy(() -> arrivals.take(4, 0, 0)).withMessage(
        "time 4 ns after 5 ns: events have to come in order of time");
    assertThatIllegalArgumentException().isThrownBy(() -> arrivals.moveTo(4));
    assertThat(arrivals.now()).isEqualTo(5);
    assertThat(arrivals.outcome(List.of()).events()).isEqualTo(1);
  }
}
