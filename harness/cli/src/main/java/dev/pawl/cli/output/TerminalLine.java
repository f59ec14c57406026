package dev.pawl.cli.output;

import dev.pawl.cli.Console;

/** One line on the terminal that says how far a long job has come, drawn anew now and then; nothing elsewhere. */
public final class TerminalLine {

  private static final long AGAIN_AFTER = 200_000_000L;

  private final Console console;
  private final boolean shown;
  private long lastShown = System.nanoTime();
  private boolean drawn;

  /** A line that is not drawn yet. */
  public TerminalLine(Console console, boolean quiet) {
    this.console = console;
    this.shown = console.errIsTerminal() && !quiet;
  }

  /** Draws it, unless that was done a moment ago. */
  public void show(String line) {
    long now = System.nanoTime();
    if (shown && now - lastShown >= AGAIN_AFTER) {
      console.err().print("\r\u001b[K" + line);
      console.err().flush();
      lastShown = now;
      drawn = true;
    }
  }

  /** Takes it away. */
  public void wipe() {
    if (drawn) {
      console.err().print("\r\u001b[K");
      console.err().flush();
      drawn = false;
    }
  }
}
