package dev.pawl.report.text;

import dev.pawl.grammar.source.Legible;
import dev.pawl.report.compare.EdgeChange;
import dev.pawl.report.compare.OutputChanges;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.List;
import java.util.Locale;

/** What became of the outputs' edges between two runs, as text. */
public final class OutputChangesText {

  private OutputChangesText() {}

  /**
   * The changes of all outputs.
   *
   * @param most edges shown of each output; the rest are counted
   */
  public static String of(List<OutputChanges> outputs, Style style, int most) {
    Page page = new Page(style);
    for (OutputChanges output : outputs) {
      page.blank();
      page.line(style.strong(Legible.of(output.signal())) + "  " + counts(output)
          + style.faint("  " + Legible.of(output.trace())));
      int shown = Math.min(most, output.changes().size());
      for (EdgeChange change : output.changes().subList(0, shown)) {
        page.labelled(change.kind().name().toLowerCase(Locale.ROOT), line(output, change));
      }
      if (output.changes().size() > shown) {
        page.labelled("", "and " + ValueText.count(output.changes().size() - shown) + " more");
      }
    }
    if (!outputs.isEmpty()) {
      page.blank();
      page.line(style.faint("An edge moved if it is to the same value, in the same order, and within "
          + TimeText.duration(OutputChanges.REACH) + "."));
    }
    return page.toString();
  }

  private static String counts(OutputChanges output) {
    return ValueText.count(output.count(EdgeChange.Kind.MOVED)) + " moved, "
        + ValueText.count(output.count(EdgeChange.Kind.VANISHED))
        + " vanished, " + ValueText.count(output.count(EdgeChange.Kind.ADDED)) + " added, "
            + ValueText.count(output.unchanged())
        + " unchanged";
  }

  private static String line(OutputChanges output, EdgeChange change) {
    String edge = Page.pad("to " + change.value(), 12) + "  at " + TimeText.at(output.base(), change.time());
    return change.kind() != EdgeChange.Kind.MOVED ? edge
        : edge + "  by " + (change.shift() < 0 ? "-" : "+") + TimeText.duration(Math.abs(change.shift()));
  }
}
