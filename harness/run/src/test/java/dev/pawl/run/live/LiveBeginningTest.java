package dev.pawl.run.live;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What is stated of signals before their first messages, in a feed whose times are in nanoseconds. */
class LiveBeginningTest {

  private static final int GATE = 0;
  private static final int LIFT = 1;

  private final List<String> told = new ArrayList<>();
  private final LiveBeginning feed = new LiveBeginning(Map.of(GATE, 1L), new EventSink() {
    @Override
    public void event(long time, int signal, long value, long line) {
      told.add(time + ": " + signal + " " + value);
    }

    @Override
    public void advanceTo(long time) {
      told.add("to " + time);
    }
  });

  @Test
  void aSignalOfWhichNothingComesHasItsValueFromWhenAllKeptMessagesHaveCome() {
    feed.advanceTo(100);
    feed.event(200, LIFT, 0, 1);
    feed.advanceTo(3_000_000_000L);
    feed.event(4_000_000_000L, GATE, 0, 2);
    assertThat(told).containsExactly("to 100", "200: 1 0", "2000000100: 0 1", "to 3000000000", "4000000000: 0 0");
  }

  @Test
  void whatTheBrokerHadKeptIsNoChangeOfWhatIsStated() {
    feed.advanceTo(100);
    feed.event(200, GATE, 0, 1);
    feed.advanceTo(3_000_000_000L);
    assertThat(told).containsExactly("to 100", "200: 0 0", "to 3000000000");
  }

  @Test
  void aFeedThatEndsBeforeThatHasNone() {
    feed.advanceTo(100);
    feed.advanceTo(2_000_000_100L);
    assertThat(told).containsExactly("to 100", "to 2000000100");
  }
}
