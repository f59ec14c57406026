package dev.pawl.fleet.command;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.Console;
import dev.pawl.cli.Interruption;
import dev.pawl.fleet.work.Progress;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.IntToDoubleFunction;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;

/** What the terminal says of a fleet at work. */
class FleetProgressTest {

  private static final long SECOND = 1_000_000_000L;

  private final ByteArrayOutputStream terminal = new ByteArrayOutputStream();

  private FleetProgress progress(String what, int before, int of, IntToDoubleFunction share, String terminals) {
    PrintStream err = new PrintStream(terminal, true, StandardCharsets.UTF_8);
    return new FleetProgress(new Console(err, err, Map.of("PAWL_TERMINAL", terminals), Path.of(""), new Interruption()),
        false, what, before, of, share);
  }

  /** The time left counts from when workers were first seen at work, by what is left of the bytes. */
  @Test
  void sessions() {
    // The first half of the sessions has a fifth of the bytes.
    FleetProgress line = progress("sessions", 1000, 3000, done -> done <= 1000 ? done / 5000.0 : 0.2 + (done - 1000)
        / 1250.0, "");
    assertThat(line.words(Progress.NONE, 5 * SECOND)).isEqualTo("1,000 of 3,000 sessions");
    assertThat(line.words(new Progress(10, 0, 70), 10 * SECOND)).isEqualTo("1,010 of 3,000 sessions");
    assertThat(line.words(new Progress(1000, 2, 70_070), 20 * SECOND)).isEqualTo("2,000 of 3,000 sessions"
        + "   7,000 rows/s   40 s left   could not be judged: 2");
  }

  @Test
  void sizesThatNobodyKnowsPromiseNothing() {
    FleetProgress line = progress("sessions", 0, 10, done -> Double.NaN, "");
    line.words(new Progress(1, 0, 7), SECOND);
    assertThat(line.words(new Progress(9, 0, 63), 8 * SECOND)).isEqualTo("9 of 10 sessions   8 rows/s");
  }

  @Test
  void runsAndWhatComesAfterThem() {
    FleetProgress line = progress("runs", 0, 100, done -> done / 100.0, "");
    line.words(new Progress(1, 0, 0), SECOND);
    assertThat(line.words(new Progress(51, 0, 0), 11 * SECOND)).isEqualTo("51 of 100 runs   5 a second   10 s left");
    assertThat(line.words(new Progress(102, 0, 0), 30 * SECOND)).isEqualTo("making runs small: 2   3 a second");
  }

  @Test
  void onlyATerminalIsDrawnOn() {
    FleetProgress hidden = progress("runs", 0, 100, done -> 0, "out");
    FleetProgress shown = progress("runs", 0, 100, done -> 0, "err");
    Awaitility.await().until(() -> {
      hidden.show(Progress.NONE);
      shown.show(Progress.NONE);
      return terminal.size() > 0;
    });
    shown.wipe();
    assertThat(terminal.toString(StandardCharsets.UTF_8)).isEqualTo("\r\u001b[K0 of 100 runs\r\u001b[K");
  }
}
