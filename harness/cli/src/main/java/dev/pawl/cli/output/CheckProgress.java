package dev.pawl.cli.output;

import dev.pawl.cli.Console;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.EventSource;
import dev.pawl.run.SessionListener;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.function.Consumer;

/** What the user sees of a session while it goes on, and the interrupt that ends it. */
public final class CheckProgress implements SessionListener {

  private final Console console;
  private final boolean quiet;
  private final Consumer<TraceResult> told;
  private ProgressLine line;

  /**
   * A listener to one session.
   *
   * @param told is told of each result
   */
  public CheckProgress(Console console, boolean quiet, Consumer<TraceResult> told) {
    this.console = console;
    this.quiet = quiet;
    this.told = told;
  }

  @Override
  public void begins(List<EventSource> sources) {
    line = new ProgressLine(console.err(), console.errIsTerminal()
        && !quiet, size(sources), console.interruption(), System::nanoTime);
  }

  private static long size(List<EventSource> sources) {
    long bytes = 0;
    for (EventSource source : sources) {
      try {
        bytes += source.file().isPresent() ? Files.size(source.file().get()) : 0;
      } catch (IOException e) {
        // A file that cannot be asked for its size is reported when it is read.
        bytes += 0;
      }
    }
    return bytes;
  }

  @Override
  public Progress progress() {
    return line.ofTrace();
  }

  @Override
  public void judged(TraceResult result) {
    line.wipe();
    told.accept(result);
  }

  @Override
  public void leftOut(int sources) {
    line.wipe();
    console.err().println("pawl: interrupted; " + (sources == 1 ? "1 trace was" : sources + " traces were")
        + " not read");
  }

  @Override
  public boolean isEndWanted() {
    return console.interruption().isRequested();
  }
}
