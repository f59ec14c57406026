package dev.pawl.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.ahead.AheadSink;
import dev.pawl.trace.intake.Progress;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Decoding on a second thread: the same events on the caller's thread, and failures of either side come out whole. */
@Timeout(60)
class AheadTest {

  private static final TraceOptions AHEAD = TraceOptions.of(Books.LIFT).withAhead(true);

  @Test
  void longTracesGiveTheSameEventsAndSummary() {
    String trace = trace(300_000);
    Recording one = Recording.of(trace, AHEAD.withAhead(false));
    Recording two = Recording.of(trace, AHEAD);
    assertThat(two.events()).isEqualTo(one.events());
    assertThat(two.lines()).isEqualTo(one.lines());
    assertThat(two.advances()).isEqualTo(one.advances());
    assertThat(two.summary()).isEqualTo(one.summary());
  }

  @Test
  void eventsArriveOnTheCallersThread() {
    Thread caller = Thread.currentThread();
    AtomicInteger elsewhere = new AtomicInteger();
    read(new ByteArrayInputStream(trace(50_000).getBytes(StandardCharsets.UTF_8)), new Sink() {
      @Override
      public void event(long time, int signal, long value, long line) {
        elsewhere.addAndGet(Thread.currentThread() == caller ? 0 : 1);
      }
    });
    assertThat(elsewhere).hasValue(0);
  }

  @Test
  void aFailingSinkEndsTheReading() {
    Sink failing = new Sink() {
      @Override
      public void event(long time, int signal, long value, long line) {
        if (line > 20_000) {
          throw new IllegalStateException("full");
        }
      }
    };
    InputStream bytes = new ByteArrayInputStream(trace(300_000).getBytes(StandardCharsets.UTF_8));
    assertThatThrownBy(() -> read(bytes, failing)).isInstanceOf(IllegalStateException.class).hasMessage("full");
  }

  @Test
  void aFailingDiskComesOutAsItIs() {
    InputStream failing = new InputStream() {
      private int given;

      @Override
      public int read() throws IOException {
        throw new IOException("the disk is gone");
      }

      @Override
      public int read(byte[] bytes, int from, int length) throws IOException {
        if (given > 0) {
          throw new IOException("the disk is gone");
        }
        byte[] start = trace(1000).getBytes(StandardCharsets.UTF_8);
        given = Math.min(length, start.length);
        System.arraycopy(start, 0, bytes, from, given);
        return given;
      }
    };
    assertThatThrownBy(() -> AheadSink.decouple(new Sink(), sink -> {
      try (TraceReader reader = Traces.open(failing, "trace", AHEAD.withAhead(false))) {
        return reader.readTo(sink, Progress.NONE);
      }
    })).isInstanceOf(IOException.class).hasMessage("the disk is gone");
  }

  private static void read(InputStream bytes, EventSink sink) {
    try (TraceReader reader = Traces.open(bytes, "trace", AHEAD)) {
      reader.readTo(sink, Progress.NONE);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  private static String trace(int rows) {
    StringBuilder trace = new StringBuilder("time_ms,signal,value\n");
    for (int i = 0; i < rows; i++) {
      trace.append(i).append(i % 3 == 0 ? ",lift_speed," + i : ",lift_run," + i % 2).append('\n');
    }
    return trace.append("# end: ").append(rows).append('\n').toString();
  }

  private static class Sink implements EventSink {
    @Override
    public void event(long time, int signal, long value, long line) {}

    @Override
    public void advanceTo(long time) {}
  }
}
