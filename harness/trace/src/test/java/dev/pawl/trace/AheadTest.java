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
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
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

  /**
   * Quoted records that go over the ends of windows, remarks, bad rows and endless lines, where threads have to agree
   * most.
   */
  @Property(tries = 12)
  void unusualTracesGiveTheSameEventsAndSummary(@ForAll long seed, @ForAll @IntRange(max = 3) int kind) {
    Random random = new Random(seed);
    StringBuilder trace = new StringBuilder("time_ms,signal,value\n");
    int unusual = kind == 0 ? 1_000_000 : 20 + random.nextInt(30_000);
    for (int i = 0; i < 120_000; i++) {
      if (random.nextInt(unusual) == 0) {
        trace.append(unusual(random, i));
      }
      trace.append(i).append(i % 3 == 0 ? ",lift_speed," + i : ",lift_run," + i % 2).append(kind == 2 ? "\r\n" : "\n");
    }
    TraceOptions lenient = AHEAD.withLenient(true).withListed(500);
    Recording one = Recording.of(trace.toString(), lenient.withAhead(false));
    Recording two = Recording.of(trace.toString(), lenient);
    assertThat(two.events()).isEqualTo(one.events());
    assertThat(two.lines()).isEqualTo(one.lines());
    assertThat(two.summary()).isEqualTo(one.summary());
  }

  private static String unusual(Random random, int time) {
    return switch (random.nextInt(8)) {
      case 0 -> "# remark\n\n";
      case 1 -> time + ",\"a tag\nof two lines\",1\n";
      case 2 -> time + ",\"" + "many\n".repeat(random.nextInt(100_000)) + "\",1\n";
      case 3 -> time + ",lift_run," + "9".repeat(random.nextInt(1_500_000)) + "\n";
      case 4 -> time - 5 + ",lift_run,0\n";
      case 5 -> time + ",\"lift_run\",\"" + time % 2 + "\"\n";
      case 6 -> time + ",mode,\"off\n";
      default -> "nonsense\n";
    };
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
