package dev.pawl.cli.output;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.Interruption;
import dev.pawl.trace.intake.Progress;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class ProgressLineTest {

  private static final long SECOND = 1_000_000_000L;

  private final ByteArrayOutputStream terminal = new ByteArrayOutputStream();
  private final AtomicLong clock = new AtomicLong(5 * SECOND);
  private final Interruption interruption = new Interruption();

  @Test
  void itSaysHowFarHowFastAndHowLongYet() {
    ProgressLine line = line(true);
    Progress first = line.ofTrace();
    Progress second = line.ofTrace();
    clock.addAndGet(2 * SECOND);
    assertThat(first.reached(200, 20_000)).isTrue();
    clock.addAndGet(2 * SECOND);
    assertThat(second.reached(300, 30_000)).isTrue();
    assertThat(shown()).isEqualTo("\r\u001b[K20 %   10,000 rows/s   8 s left\r\u001b[K50 %   12,500 rows/s   4 s left");
    line.wipe();
    assertThat(shown()).endsWith("4 s left\r\u001b[K");
  }

  @Test
  void aShortRunShowsNothing() {
    ProgressLine line = line(true);
    clock.addAndGet(SECOND / 2);
    line.ofTrace().reached(1000, 10);
    line.wipe();
    assertThat(shown()).isEmpty();
  }

  @Test
  void whatIsNoTerminalGetsNothing() {
    ProgressLine line = line(false);
    clock.addAndGet(10 * SECOND);
    line.ofTrace().reached(500, 10);
    assertThat(shown()).isEmpty();
  }

  @Test
  void anInterruptEndsTheReading() {
    Progress progress = line(false).ofTrace();
    assertThat(progress.reached(1, 1)).isTrue();
    interruption.request();
    assertThat(progress.reached(2, 2)).isFalse();
  }

  private ProgressLine line(boolean shown) {
    return new ProgressLine(new PrintStream(terminal, true), shown, 1000, interruption, clock::get);
  }

  private String shown() {
    return terminal.toString();
  }
}
