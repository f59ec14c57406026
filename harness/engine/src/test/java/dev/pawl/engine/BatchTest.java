package dev.pawl.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What has been put into a batch comes out of it. */
class BatchTest {

  private static List<String> played(Batch batch) {
    List<String> told = new ArrayList<>();
    batch.play(new EventSink() {
      @Override
      public void event(long time, int signal, long value, long line) {
        told.add("event " + time + " " + signal + " " + value + " " + line);
      }

      @Override
      public void advanceTo(long time) {
        told.add("advance " + time);
      }
    });
    return told;
  }

  @Test
  void playsWhatItHoldsInItsOrder() {
    Batch batch = new Batch(3);
    batch.event(-5, 7, EventSink.UNKNOWN, 12);
    batch.advance(6);
    batch.event(6, 0, 1, 13);

    assertThat(played(batch)).containsExactly("event -5 7 " + EventSink.UNKNOWN + " 12", "advance 6", "event 6 0 1 13");
  }

  @Test
  void isFullWhenItHoldsAsManyAsWereSaidAndEmptyWhenCleared() {
    Batch batch = new Batch(2);
    batch.event(1, 0, 1, 1);
    assertThat(batch.isFull()).isFalse();
    batch.event(2, 0, 0, 2);
    assertThat(batch.isFull()).isTrue();

    batch.clear();
    assertThat(batch.isFull()).isFalse();
    assertThat(played(batch)).isEmpty();
  }
}
