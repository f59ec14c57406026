package dev.pawl.mqtt.feed;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.support.Ride.Event;
import dev.pawl.mqtt.support.Ride.Kept;
import dev.pawl.mqtt.time.ReorderWindow;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class MergerTest {

  private static final long WINDOW = 100;
  private static final long JUMP = 10_000;

  private final Kept kept = new Kept();
  private final EvidenceLog evidence = new EvidenceLog(3);
  private final List<Integer> jumps = new ArrayList<>();
  private final SenderTimeline timeline = new SenderTimeline(WINDOW, JUMP, () -> jumps.add(1));
  private final Merger merger = new Merger(3, timeline, evidence, kept);

  @Test
  void statedTimesAreKeptAndPutInOrderAcrossTopics() {
    merger.stated(0, 1, 5010, 15_020);
    merger.stated(1, 1, 5000, 15_025);
    merger.stated(2, 1, 5005, 15_030);
    merger.advance(15_030);
    assertThat(kept.events()).isEmpty();
    merger.advance(15_121);
    assertThat(kept.events()).containsExactly(new Event(5000, 1, 1), new Event(5005, 2, 1), new Event(5010, 0, 1));
  }

  @Test
  void arrivalsAreMappedOntoTheSendersClock() {
    merger.stated(0, 1, 5000, 15_000);
    merger.arrived(1, 1, 15_050);
    merger.advance(16_000);
    assertThat(kept.events()).containsExactly(new Event(5000, 0, 1), new Event(5050, 1, 1));
    assertThat(timeline.offset().nanoseconds()).isEqualTo(10_000);
  }

  @Test
  void whatComesTooLateIsTakenAtTheHorizonAndTold() {
    merger.stated(0, 1, 5000, 15_000);
    merger.advance(16_000);
    merger.stated(1, 1, 5500, 16_010);
    merger.advance(17_000);
    assertThat(kept.events()).containsExactly(new Event(5000, 0, 1), new Event(5900, 1, 1));
    assertThat(evidence.count(Anomaly.LATE)).isEqualTo(1);
    assertThat(evidence.items().get(0).signals()).containsExactly(1);
  }

  /** As a message does that is sent twice; a trace with a row twice would be refused. */
  @Test
  void whatSaysTheSameOfTheSameTimeAgainIsNoEvent() {
    merger.stated(0, 1, 5000, 15_000);
    merger.stated(0, 1, 5000, 15_001);
    merger.stated(0, 0, 5000, 15_002);
    merger.stated(0, 0, 5001, 15_003);
    merger.advance(16_000);
    assertThat(kept.events()).containsExactly(new Event(5000, 0, 1), new Event(5000, 0, 0), new Event(5001, 0, 0));
  }

  @Test
  void aClockJumpIsToldAndTheStreamGoesOn() {
    merger.stated(0, 1, 5000, 15_000);
    merger.stated(0, 0, 1_005_100, 15_100);
    assertThat(jumps).hasSize(1);
    assertThat(timeline.lastJump()).isEqualTo(1_000_000);
    merger.stated(0, 1, 1_005_200, 15_200);
    merger.stated(0, 0, 5300, 15_300);
    assertThat(timeline.lastJump()).isEqualTo(-1_000_000);
    merger.advance(20_000);
    assertThat(kept.events().stream().map(Event::time)).containsExactly(5000L, 5100L, 5200L, 5300L);
  }

  @Test
  void inAGapWhatWasKnownBecomesUnknownOnce() {
    merger.arrived(0, 1, 1000);
    merger.allUnknown(2000);
    merger.allUnknown(2100);
    merger.advance(5000);
    assertThat(kept.events()).containsExactly(new Event(1000, 0, 1), new Event(2000, 0, EventSink.UNKNOWN));
  }

  @Test
  void noTimeIsToldBeforeTheFirstEvent() {
    merger.advance(1_000_000);
    merger.arrived(0, 1, 2_000_000);
    merger.advance(3_000_000);
    assertThat(kept.events()).containsExactly(new Event(2_000_000, 0, 1));
  }

  @Test
  void theWindowSortsAsASortDoes() {
    Random random = new Random(7);
    ReorderWindow window = new ReorderWindow();
    List<Event> expected = new ArrayList<>();
    List<Event> taken = new ArrayList<>();
    for (int i = 0; i < 5000; i++) {
      Event event = new Event(random.nextInt(300), i, i);
      window.add(event.time(), event.signal(), event.value());
      expected.add(event);
    }
    window.releaseBefore(Long.MAX_VALUE, (time, signal, value) -> taken.add(new Event(time, signal, value)));
    expected.sort(Comparator.comparingLong(Event::time).thenComparingInt(Event::signal));
    assertThat(taken).isEqualTo(expected);
  }
}
