package dev.pawl.grammar.source;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The one way in which diagnostics become text: where, how bad, what, the source line, a caret, and what to do.
 *
 * <pre>
 * lift.rules:12:30: error: the bound is a time, but lift_speed is a speed
 *    12 |   must     lift_speed <= 3 s
 *       |                          ^^^
 *       = compare it with a speed, such as 3 m/s
 * </pre>
 */
public final class DiagnosticRenderer {

  /** Columns of a source line that are shown; longer lines are cut on both sides of the caret. */
  private static final int WIDTH = 120;

  private static final String CUT = "...";

  private final Map<String, Source> sources = new HashMap<>();

  /** A renderer that shows lines of the given sources; a diagnostic of any other file is shown without its line. */
  public DiagnosticRenderer(Collection<Source> sources) {
    for (Source source : sources) {
      this.sources.put(source.name(), source);
    }
  }

  /** All diagnostics as one text, each ending in a line break. */
  public String render(List<Diagnostic> diagnostics) {
    StringBuilder text = new StringBuilder();
    for (Diagnostic diagnostic : diagnostics) {
      text.append(render(diagnostic));
    }
    return text.toString();
  }

  /** One diagnostic as one to four lines, each ending in a line break. */
  public String render(Diagnostic diagnostic) {
    Position position = diagnostic.position();
    StringBuilder text = new StringBuilder();
    if (!position.file().isEmpty()) {
      text.append(position.line() > 0 ? position.toString() : position.file()).append(": ");
    }
    text.append(diagnostic.severity().name().toLowerCase(Locale.ROOT)).append(": ").append(diagnostic.message())
        .append('\n');
    Source source = sources.get(position.file());
    if (source != null && position.line() > 0) {
      excerpt(source.line(position.line()), position).forEach(line -> text.append(line).append('\n'));
    }
    if (!diagnostic.hint().isEmpty()) {
      text.append("       = ").append(diagnostic.hint()).append('\n');
    }
    return text.toString();
  }

  private static List<String> excerpt(String line, Position position) {
    int caret = Math.min(Math.max(position.column() - 1, 0), line.length());
    int start = caret < WIDTH ? 0 : caret - WIDTH / 2;
    int end = Math.min(line.length(), start + WIDTH);
    String head = start > 0 ? CUT : "";
    String tail = end < line.length() ? CUT : "";
    int length = Math.max(1, Math.min(position.length(), end - caret));

    List<String> lines = new ArrayList<>();
    lines.add(String.format(Locale.ROOT, "%5d | ", position.line()) + head + printable(line.substring(start, end))
        + tail);
    lines.add("      | " + " ".repeat(head.length()) + indent(line.substring(start, caret)) + "^".repeat(length));
    return lines;
  }

  /** Blank text as wide as {@code shown}: tabs stay, so that the caret stands under its character. */
  private static String indent(String shown) {
    StringBuilder blank = new StringBuilder();
    shown.chars().forEach(c -> blank.append(c == '\t' ? '\t' : ' '));
    return blank.toString();
  }

  /** The same text with control characters replaced, so that a hostile file cannot steer the terminal. */
  private static String printable(String text) {
    StringBuilder shown = new StringBuilder();
    text.chars().forEach(c -> shown.append(c == '\t' || Character.isSurrogate((char) c) || Legible.isLegible(c)
        ? (char) c : '\uFFFD'));
    return shown.toString();
  }
}
