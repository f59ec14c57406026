package dev.pawl.trace;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import dev.pawl.engine.EventSink;
import dev.pawl.trace.intake.Progress;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Ordinary rows cost no memory: a hundred times the rows need no more of it. */
class HotPathTest {

  private static final int ROWS = 2_000;
  private static final long SLACK = 400_000;

  @ParameterizedTest
  @ValueSource(strings = {
      "time_ms,signal,value\n;%1$d,lift_run,%2$d\n", "time_s,signal,value,quality\n;%1$d.25,lift_run,%2$d,good\n",
      "time,signal,value\n;2026-11-25T09:%3$02d:%4$02d.5Z,lift_speed,%1$d.5\n",
          "time_ms,lift_run,lift_speed\n;%1$d,%2$d,%1$d.25\n",
      "$timescale 1 ms $end $var wire 1 ! lift_run $end $enddefinitions $end\n;#%1$d\n%2$d!\n",
      "{\"time_ms\": 0, \"lift_run\": 0}\n;{\"time_ms\": %1$d, \"lift_run\": %2$d, \"lift_speed\": %1$d.5}\n",
      "time,lift_run\n;2026-11-25 09:%3$02d:%4$02d.5+01:00,%2$d\n",
          "signal,value,time_us\n;lift_run,%2$d,1764062859%1$06d\n",
      ";{\"time_ms\": %1$d, \"signal\": \"lift_run\", \"value\": %2$d}\n"})
  void allocatesNothingPerEvent(String pattern) throws IOException {
    long few = allocated(trace(pattern, ROWS));
    long many = allocated(trace(pattern, 100 * ROWS));
    assertThat(many - few).isLessThan(SLACK);
  }

  private static byte[] trace(String pattern, int rows) {
    int split = pattern.indexOf(';');
    StringBuilder text = new StringBuilder(pattern.substring(0, split));
    for (int i = 0; i < rows; i++) {
      int second = i * 3600 / rows;
      text.append(pattern.substring(split + 1).formatted(i, i % 2, second / 60, second % 60));
    }
    return text.toString().getBytes(StandardCharsets.UTF_8);
  }

  private static long allocated(byte[] trace) throws IOException {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long before = threads.getThreadAllocatedBytes(Thread.currentThread().getId());
    try (TraceReader reader = Traces.open(new ByteArrayInputStream(trace), "trace", TraceOptions.of(Books.LIFT)
        .withLenient(true))) {
      reader.readTo(new Discarding(), Progress.NONE);
    }
    return threads.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
  }

  private static final class Discarding implements EventSink {
    @Override
    public void event(long time, int signal, long value, long line) {}

    @Override
    public void advanceTo(long time) {}
  }
}
