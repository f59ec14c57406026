package dev.pawl.cli.output;

import dev.pawl.cli.Console;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.stress.Campaign;
import dev.pawl.run.stress.Strength;
import dev.pawl.run.stress.Tally;
import java.util.Locale;

/** What the user sees of a campaign while it goes on, and the interrupt that ends it. */
public final class StressProgress implements Campaign.Listener, Strength.Listener {

  private final Console console;
  private final TerminalLine line;
  private final int runs;
  private final long begun = System.nanoTime();
  private long lastRun = begun;

  /**
   * A listener to one campaign.
   *
   * @param runs how many it makes
   */
  public StressProgress(Console console, boolean quiet, int runs) {
    this.console = console;
    this.line = new TerminalLine(console, quiet);
    this.runs = runs;
  }

  @Override
  public boolean reached(int done, Tally tally) {
    lastRun = System.nanoTime();
    double seconds = (lastRun - begun) / 1e9;
    line.show(String.format(Locale.ROOT, "%s of %s runs   %.0f a second   %s   not noticed: %s", ValueText.count(done),
        ValueText.count(runs), done / seconds, TimeText.duration(Math.round(seconds * (runs - done) / done)
            * 1_000_000_000L) + " left", ValueText.count(tally.all().unnoticed())));
    return !console.interruption().isRequested();
  }

  @Override
  public boolean made(int hazards, int of) {
    line.show("making runs small: " + hazards + " of at most " + of);
    return !console.interruption().isRequested();
  }

  @Override
  public boolean reached(int done, int of, int unnoticed) {
    line.show(done + " of " + of + " mistakes   not noticed: " + unnoticed);
    return !console.interruption().isRequested();
  }

  /** Takes the line away. */
  public void wipe() {
    line.wipe();
  }

  /** Takes the line away and says how fast it was. */
  public void end(long made, double rideTime) {
    wipe();
    double seconds = (lastRun - begun) / 1e9;
    console.err().println(String.format(Locale.ROOT, "pawl: %s runs in %s: %.1f a second, %s times real time",
        ValueText.count(made), TimeText.duration(Math.round(seconds * 10) * 100_000_000L), made / seconds,
        ValueText.count(Math.round(rideTime / seconds))));
  }
}
