package dev.pawl.cli;

import dev.pawl.engine.Caution;
import dev.pawl.report.text.Style;
import java.io.PrintStream;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;

/**
 * What a command is given of the world outside.
 *
 * @param out for results
 * @param err for everything else
 * @param environment the environment; the launcher says in {@code PAWL_TERMINAL} which of {@code out} and {@code err}
 *     are terminals, and in {@code PAWL_CALLED} by which name it was called
 * @param home the checkout that the launcher runs from, for the demo
 * @param interruption tells when the user wants the run to end
 */
public record Console(PrintStream out, PrintStream err, Map<String, String> environment, Path home,
    Interruption interruption) {

  private static final int USUAL_WIDTH = 100;
  private static final int GREATEST_WIDTH = 140;

  /** The same for work that an interrupt does not end. */
  public Console undisturbed() {
    return new Console(out, err, environment, home, new Interruption());
  }

  /** Says cautions to a person who is about to act. */
  public void warn(Caution... cautions) {
    for (Caution caution : cautions) {
      err.println("pawl: " + caution.text());
    }
  }

  /** Says cautions after a result. */
  public void remind(List<Caution> cautions) {
    cautions.forEach(caution -> out.println(caution.text()));
  }

  /**
   * When the present moment is, or the one that {@code SOURCE_DATE_EPOCH} states in its place, so that a run can be had
   * again to the byte (reproducible-builds.org).
   */
  public Instant now() {
    String stated = environment.getOrDefault("SOURCE_DATE_EPOCH", "");
    if (stated.isEmpty()) {
      return Instant.now().truncatedTo(ChronoUnit.SECONDS);
    }
    if (!stated.matches("\\d{1,11}")) {
      throw new CommandException("SOURCE_DATE_EPOCH: '" + stated + "' is not a number of seconds since 1970");
    }
    return Instant.ofEpochSecond(Long.parseLong(stated));
  }

  boolean wantsDetail() {
    return !environment.getOrDefault("PAWL_DETAIL", "").isEmpty();
  }

  /** The word by which this command can be called again. */
  public String calledAs() {
    return environment.getOrDefault("PAWL_CALLED", "pawl");
  }

  boolean outIsTerminal() {
    return environment.getOrDefault("PAWL_TERMINAL", "").contains("out");
  }

  public boolean errIsTerminal() {
    return environment.getOrDefault("PAWL_TERMINAL", "").contains("err");
  }

  /** Colour only on a terminal, and not where NO_COLOR is set (no-color.org). */
  public Style style() {
    boolean colour = outIsTerminal() && environment.getOrDefault("NO_COLOR", "").isEmpty()
        && !environment.getOrDefault("TERM", "").equals("dumb");
    return new Style(colour, width());
  }

  private int width() {
    try {
      return Math.min(GREATEST_WIDTH, Integer.parseInt(environment.getOrDefault("COLUMNS", "")));
    } catch (NumberFormatException e) {
      return USUAL_WIDTH;
    }
  }
}
