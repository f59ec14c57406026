package dev.pawl.cli.output;

import dev.pawl.cli.Interruption;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import dev.pawl.trace.intake.Progress;
import java.io.PrintStream;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongSupplier;

/**
 * One line on the terminal that says how far a long run has come; it is wiped when the run ends, and short runs never
 * show it.
 */
public final class ProgressLine {

  private static final long FIRST_AFTER = 700_000_000L;
  private static final long AGAIN_AFTER = 200_000_000L;

  private final PrintStream terminal;
  private final boolean shown;
  private final long totalBytes;
  private final Interruption interruption;
  private final LongSupplier clock;
  private final long begun;
  private final AtomicLong bytesDone = new AtomicLong();
  private final AtomicLong linesDone = new AtomicLong();
  private final AtomicLong nextShow;
  private volatile boolean drawn;

  /**
   * A line that is not drawn yet.
   *
   * @param shown whether it may be drawn at all
   * @param totalBytes size of all that is to be read
   * @param clock nanoseconds that go on steadily
   */
  ProgressLine(PrintStream terminal, boolean shown, long totalBytes, Interruption interruption, LongSupplier clock) {
    this.terminal = terminal;
    this.shown = shown;
    this.totalBytes = totalBytes;
    this.interruption = interruption;
    this.clock = clock;
    this.begun = clock.getAsLong();
    this.nextShow = new AtomicLong(begun + FIRST_AFTER);
  }

  /** Progress of one trace, to be told by one reader; it also ends the reading when the user interrupts. */
  Progress ofTrace() {
    return new Progress() {
      private long bytesTold;
      private long linesTold;

      @Override
      public boolean reached(long bytes, long lines) {
        bytesDone.addAndGet(bytes - bytesTold);
        linesDone.addAndGet(lines - linesTold);
        bytesTold = bytes;
        linesTold = lines;
        if (shown) {
          show();
        }
        return !interruption.isRequested();
      }
    };
  }

  private void show() {
    long now = clock.getAsLong();
    long due = nextShow.get();
    if (now < due || !nextShow.compareAndSet(due, now + AGAIN_AFTER)) {
      return;
    }
    double seconds = (now - begun) / 1e9;
    double share = totalBytes > 0 ? Math.min(1, (double) bytesDone.get() / totalBytes) : 0;
    String left = share > 0.01 ? TimeText.duration(Math.max(1, Math.round(seconds * (1 - share) / share))
        * 1_000_000_000L) + " left" : "";
    String line = Math.round(share * 100) + " %   " + ValueText.count(Math.round(linesDone.get() / seconds))
        + " rows/s   " + left;
    terminal.print("\r\u001b[K" + line);
    terminal.flush();
    drawn = true;
  }

  /** Takes the line away. */
  synchronized void wipe() {
    if (drawn) {
      terminal.print("\r\u001b[K");
      terminal.flush();
      drawn = false;
    }
  }
}
