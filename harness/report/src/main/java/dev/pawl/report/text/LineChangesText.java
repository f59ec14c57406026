package dev.pawl.report.text;

import dev.pawl.grammar.source.Legible;
import dev.pawl.report.compare.LineChange;
import dev.pawl.report.compare.LineChange.Instant;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.List;

/** What became of the lines by which two versions of a program differ, as text. */
public final class LineChangesText {

  private LineChangesText() {}

  /** All of them, those that never came into play too. */
  public static String of(List<LineChange> lines, Style style) {
    Page page = new Page(style);
    for (LineChange line : lines) {
      page.blank();
      ProgramPlace place = line.after().or(line::before).orElseThrow();
      page.line(style.strong(Legible.of(place.file() + ":" + place.line())) + "  " + words(line));
      line.before().ifPresent(was -> page.labelled("before", was.text()));
      page.labelled("after", line.after().map(ProgramPlace::text).orElse("gone"));
      line.first().ifPresent(first -> page.labelled("first", at(first)));
      line.limit().ifPresent(limit -> page.labelled("compared", "only until it had changed too often, " + at(limit)));
    }
    if (!lines.isEmpty()) {
      page.blank();
    }
    return page.toString();
  }

  private static String words(LineChange line) {
    return switch (line.effect()) {
      case DIFFERED -> "came to something else in " + scans(line.differing()) + " of those in which it ran";
      case ALIKE -> "ran in " + scans(line.scansAfter()) + ", and always came to the same as before";
      case NO_PARTNER -> "ran in " + scans(Math.max(line.scansBefore(), line.scansAfter()))
          + "; nothing in the other version to compare it with";
      case NEVER_RAN -> "never ran: nothing here says what the change does";
      case NO_STATEMENT -> "is no part of a statement: what it declares shows where that is used";
    };
  }

  private static String scans(long count) {
    return ValueText.count(count) + (count == 1 ? " scan" : " scans");
  }

  private static String at(Instant instant) {
    return "at " + TimeText.at(instant.base(), instant.time()) + " of " + instant.trace();
  }
}
