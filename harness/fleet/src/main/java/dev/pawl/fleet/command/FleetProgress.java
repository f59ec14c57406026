package dev.pawl.fleet.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.output.TerminalLine;
import dev.pawl.fleet.work.Progress;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.Locale;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;

/** What the user sees of a fleet while it works. */
final class FleetProgress {

  private static final double SECOND = 1e9;
  /** After less than this part of the work nothing is said of the rest. */
  private static final double ENOUGH = 0.01;

  private final TerminalLine line;
  private final String what;
  private final int before;
  private final int of;
  private final IntToDoubleFunction share;
  /** What was seen first: from then on the workers are at work. */
  private Optional<Seen> first = Optional.empty();

  private record Seen(Progress progress, long time) {}

  /**
   * Of one job.
   *
   * @param what the tasks are called
   * @param before how many of them were done before the job
   * @param of how many there are with these
   * @param share the part of the work that is in the first tasks, not a number where nobody knows
   */
  FleetProgress(Console console, boolean quiet, String what, int before, int of, IntToDoubleFunction share) {
    this.line = new TerminalLine(console, quiet);
    this.what = what;
    this.before = before;
    this.of = of;
    this.share = share;
  }

  void show(Progress now) {
    line.show(words(now, System.nanoTime()));
  }

  /** The line at a time in nanoseconds. */
  String words(Progress now, long time) {
    if (first.isEmpty() && now.done() > 0) {
      first = Optional.of(new Seen(now, time));
    }
    int done = before + now.done();
    StringBuilder words = new StringBuilder();
    // A campaign makes runs small after the last of them.
    words.append(done > of ? "making runs small: " + (done - of)
        : ValueText.count(done) + " of " + ValueText.count(of) + " " + what);
    first.filter(seen -> now.done() > seen.progress().done()).ifPresent(seen -> {
      double seconds = (time - seen.time()) / SECOND;
      double rows = (now.rows() - seen.progress().rows()) / seconds;
      words.append(rows > 0 ? "   " + ValueText.count(Math.round(rows)) + " rows/s"
          : String.format(Locale.ROOT, "   %.0f a second", (now.done() - seen.progress().done()) / seconds));
      double part = share.applyAsDouble(now.done()) - share.applyAsDouble(seen.progress().done());
      if (part > ENOUGH && done <= of) {
        long left = Math.round(seconds * (1 - share.applyAsDouble(now.done())) / part);
        words.append("   ").append(TimeText.duration(Math.max(1, left) * (long) SECOND)).append(" left");
      }
    });
    return words.append(now.bad() > 0 ? "   could not be judged: " + ValueText.count(now.bad()) : "").toString();
  }

  void wipe() {
    line.wipe();
  }
}
