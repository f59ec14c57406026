package dev.pawl.mqtt.feed;

import static dev.pawl.mqtt.support.Ride.MS;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.Ride.Event;
import dev.pawl.mqtt.support.Ride.Kept;
import dev.pawl.trace.intake.ReorderWindow;
import dev.pawl.trace.bindings.BindingsFile;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MergerTest {

  /** Two signals of one sender, one of another, and one that states no time. */
  private static final TopicBindings BINDINGS = TopicBindings.resolve(BindingsFile.parse(new Source("t", """
      topics
        near_flag   on "plc" json "/near" time "/t" ms
        estop_chain on "plc" json "/chain" time "/t" ms
        lift_run    on "drive" json "/run" time "/t" ms
      """)), Ride.BOOK).bindings();
  private static final int UNTIMED = 3;

  private final Kept kept = new Kept();
  private final EvidenceLog evidence = new EvidenceLog(4);
  private final SenderClocks clocks = new SenderClocks(BINDINGS, Duration.ofMillis(100));
  private final Merger merger = new Merger(4, new SenderTimeline(clocks.window()), clocks, evidence, kept);

  /** Events in milliseconds. */
  private static Event event(long time, int signal, long value) {
    return new Event(time * MS, signal, value);
  }

  private void stated(int signal, long value, long stated, long arrival) {
    merger.stated(signal, value, stated * MS, arrival * MS);
  }

  private List<Event> after(long settled) {
    merger.advance(settled * MS);
    return kept.events();
  }

  @Test
  void statedTimesKeepTheirDistancesAndArePutInOrderAcrossTopics() {
    stated(0, 1, 5010, 15_020);
    stated(2, 1, 5000, 15_025);
    stated(1, 1, 5005, 15_030);
    assertThat(after(15_030)).isEmpty();
    assertThat(after(15_121)).containsExactly(event(15_010, 2, 1), event(15_015, 1, 1), event(15_020, 0, 1));
  }

  @ParameterizedTest
  @ValueSource(longs = {-86_400_000, -3_600_000, -37_000, -5000, -1000, 0, 5000, 3_600_000, 86_400_000})
  void whateverASendersClockShowsItsValuesStandWhereTheyWere(long ahead) {
    merger.untimed(UNTIMED, 1, 100_000 * MS);
    assertThat(after(100_200)).containsExactly(event(100_000, UNTIMED, 1));
    for (int i = 0; i < 50; i++) {
      long now = 100_300 + 500 * i;
      stated(0, i % 2, now + ahead, now + 10 + i * 7 % 13);
      stated(2, i % 2, now + 100 - ahead / 3, now + 110 + i * 5 % 11);
      merger.untimed(UNTIMED, i, (now + 200) * MS);
      merger.advance((now + 300) * MS);
    }
    List<Event> expected = new ArrayList<>(List.of(event(100_000, UNTIMED, 1)));
    for (int i = 0; i < 50; i++) {
      long now = 100_300 + 500 * i;
      expected.addAll(List.of(event(now + 10, 0, i % 2), event(now + 110, 2, i % 2), event(now + 200, UNTIMED, i)));
    }
    assertThat(after(200_000)).isEqualTo(expected);
    assertThat(evidence.items()).isEmpty();
  }

  @Test
  void whatComesTooLateMakesItsSignalUnknownUntilItsNextValue() {
    stated(0, 1, 5000, 15_000);
    stated(1, 1, 5000, 15_000);
    after(16_000);
    stated(1, 0, 5500, 16_010);
    stated(1, 1, 6020, 16_020);
    assertThat(after(17_000)).containsExactly(event(15_000, 0, 1), event(15_000, 1, 1),
        event(15_900, 1, EventSink.UNKNOWN), event(16_020, 1, 1));
    assertThat(evidence.items()).singleElement().satisfies(item -> {
      assertThat(item.anomaly()).isEqualTo(Anomaly.LATE);
      assertThat(item.signals()).containsExactly(1);
    });
  }

  /** As a message does that is sent twice; a trace with a row twice would be refused. */
  @Test
  void whatSaysTheSameOfTheSameTimeAgainIsNoEvent() {
    stated(0, 1, 5000, 15_000);
    stated(0, 1, 5000, 15_001);
    stated(0, 0, 5000, 15_002);
    stated(0, 0, 5001, 15_003);
    List<Event> once = List.of(event(15_000, 0, 1), event(15_000, 0, 0), event(15_001, 0, 0));
    assertThat(after(16_000)).isEqualTo(once);
    stated(0, 0, 5001, 16_000);
    assertThat(after(17_000)).isEqualTo(once);
    assertThat(evidence.count(Anomaly.DUPLICATE)).isEqualTo(1);
  }

  @Test
  void aBurstAfterAStallIsNoJumpOfTheClock() {
    stated(0, 0, 5000, 15_000);
    after(18_000);
    for (int i = 1; i <= 20; i++) {
      stated(0, i % 2, 5000 + 140 * i, 18_000 + i);
    }
    stated(0, 1, 8100, 18_100);
    List<Event> events = after(20_000);
    assertThat(events.get(events.size() - 1)).isEqualTo(event(18_100, 0, 1));
    assertThat(events.get(1).value()).isEqualTo(EventSink.UNKNOWN);
    assertThat(evidence.items()).singleElement().satisfies(item -> assertThat(item.anomaly()).isEqualTo(Anomaly.LATE));
  }

  @Test
  void aClockThatIsSetForwardIsToldAndWhatItSaidIsUnknown() {
    stated(0, 1, 5000, 15_000);
    stated(1, 1, 5000, 15_000);
    stated(2, 1, 5000, 15_000);
    after(15_500);
    stated(0, 0, 1_006_000, 16_000);
    assertThat(after(20_000)).containsExactly(event(15_000, 0, 1), event(15_000, 1, 1), event(15_000, 2, 1),
        event(15_400, 0, EventSink.UNKNOWN), event(15_400, 1, EventSink.UNKNOWN), event(16_000, 0, 0));
    assertThat(evidence.items()).singleElement().satisfies(item -> {
      assertThat(item.anomaly()).isEqualTo(Anomaly.CLOCK_JUMP);
      assertThat(item.firstDetail()).isEqualTo("it went forward by 1000000 ms");
      assertThat(item.signals()).containsExactly(0, 1);
    });
  }

  @Test
  void aClockThatIsSetBackIsToldOnceItLasts() {
    stated(0, 1, 5000, 15_000);
    after(15_500);
    for (int i = 0; i < 6; i++) {
      stated(0, i % 2, 2000 + 500 * i, 16_000 + 500 * i);
      after(16_000 + 500 * i);
    }
    assertThat(after(20_000)).endsWith(event(17_000, 0, 0), event(17_500, 0, 1), event(18_000, 0, 0),
        event(18_500, 0, 1));
    assertThat(kept.events().get(1).value()).isEqualTo(EventSink.UNKNOWN);
    assertThat(evidence.count(Anomaly.LATE)).isEqualTo(2);
    assertThat(evidence.count(Anomaly.CLOCK_JUMP)).isEqualTo(1);
  }

  /** A day of a clock that loses 50 in a million is never off by more than half the window for long. */
  @Test
  void aClockThatRunsSlowIsFollowedAndTold() {
    long worst = 0;
    for (long second = 0; second < 86_400; second++) {
      long now = 1_000_000 + 1000 * second;
      stated(0, second % 2, now - second / 20, now);
      after(now);
    }
    for (Event event : after(200_000_000)) {
      worst = event.value() == EventSink.UNKNOWN ? worst : Math.max(worst, Math.floorMod(-event.time(), 1000 * MS));
    }
    assertThat(worst).isLessThanOrEqualTo(51 * MS);
    assertThat(evidence.count(Anomaly.CLOCK_JUMP)).isGreaterThan(50);
    assertThat(evidence.count(Anomaly.LATE)).isZero();
  }

  /**
   * What a broker had kept is older than what came live after it, whatever the clocks say; and says nothing of a clock.
   */
  @Test
  void aKeptValueIsBeforeWhatComesAfterIt() {
    merger.arrived(0, 0, 15_000 * MS);
    stated(1, 1, 5000, 14_980);
    stated(0, 1, 5015, 15_010);
    assertThat(after(16_000)).containsExactly(event(14_980, 1, 1), event(15_000, 0, 0), event(15_000, 0, 1));
  }

  @Test
  void inAGapWhatWasKnownBecomesUnknownOnce() {
    merger.arrived(0, 1, 1000);
    merger.allUnknown(2000);
    merger.allUnknown(2100);
    merger.advance(5000 + 100 * MS);
    assertThat(kept.events()).containsExactly(new Event(1000, 0, 1), new Event(2000, 0, EventSink.UNKNOWN));
  }

  @Test
  void noTimeIsToldBeforeTheFirstEvent() {
    merger.advance(1_000_000);
    merger.arrived(0, 1, 2_000_000);
    assertThat(after(1000)).containsExactly(new Event(2_000_000, 0, 1));
  }

  @Test
  void theWindowSortsAsASortDoes() {
    Random random = new Random(7);
    ReorderWindow window = new ReorderWindow();
    List<Event> expected = new ArrayList<>();
    List<Event> taken = new ArrayList<>();
    for (int i = 0; i < 5000; i++) {
      Event event = new Event(random.nextInt(300), i, i);
      window.add(event.time(), event.signal(), event.value(), 0);
      expected.add(event);
    }
    window.releaseBefore(Long.MAX_VALUE, (time, signal, value, line) -> taken.add(new Event(time, signal, value)));
    expected.sort(Comparator.comparingLong(Event::time).thenComparingInt(Event::signal));
    assertThat(taken).isEqualTo(expected);
  }
}
