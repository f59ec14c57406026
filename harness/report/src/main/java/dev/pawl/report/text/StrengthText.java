package dev.pawl.report.text;

import dev.pawl.report.model.StrengthReport;
import dev.pawl.report.model.StrengthReport.Fate;
import dev.pawl.report.model.StrengthReport.Mistake;
import dev.pawl.report.model.Truth;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.TimeText;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Which rules noticed which mistakes in logic: as text, what nobody noticed first; and as a table. */
public final class StrengthText {

  private static final int LABEL = 58;
  private static final int MOST_LOST = 5;
  private static final int MOST_WORDS = 120;
  private static final List<Fate> LISTED = List.of(Fate.DANGEROUS, Fate.DIFFERED, Fate.LOST, Fate.ALIKE,
      Fate.NEVER_RAN);

  private StrengthText() {}

  /** The whole text. */
  public static String of(StrengthReport report, Style style) {
    Page page = new Page(style);
    page.line(report.ride() + ": " + report.mistakes().size() + " mistakes planted in the logic, one at a time, of "
        + report.possible() + " that can be; seed " + report.seed());
    page.line("Each in " + report.runs() + " runs, " + TimeText.duration(Math.round(report.rideTime() * 1e9))
        + " of the ride's time, beside the same runs by the unchanged logic");
    page.blank();
    for (Fate fate : Fate.values()) {
      page.labelled(fate.words(), LABEL, String.valueOf(report.of(fate).size()));
    }
    page.labelled("led to a hazard, noticed or not", LABEL, String.valueOf(report.dangerous()));
    page.labelled("a rule noticed it, but not a hazard of it in another run", LABEL, String.valueOf(report.untold()
        .size()));
    for (Fate fate : LISTED) {
      list(page, Character.toUpperCase(fate.words().charAt(0)) + fate.words().substring(1), report.of(fate));
      if (fate == Fate.DANGEROUS) {
        list(page, "A rule noticed it, but not a hazard of it in another run", report.untold());
      }
    }
    page.blank();
    page.line("How many mistakes each rule noticed");
    page.labelled("", 0, IntStream.range(0, report.rules().size()).boxed().filter(rule -> report.noticed(rule) > 0)
        .sorted(Comparator.comparingLong(rule -> -report.noticed(rule)))
        .map(rule -> report.rules().get(rule) + " " + report.noticed(rule)).collect(Collectors.joining(", ")));
    List<String> nothing = report.noticedNothing();
    page.line(nothing.isEmpty() ? "Every rule noticed one." : nothing.size() + " of " + report.rules().size()
        + " rules noticed none: " + String.join(", ", nothing));
    page.blank();
    page.line("A mistake that changed no output in these runs can do so in others.");
    Cautions.ALL.forEach(page::line);
    return page.toString();
  }

  private static void list(Page page, String heading, List<Mistake> those) {
    if (!those.isEmpty()) {
      page.blank();
      page.line(heading);
      those.forEach(it -> write(page, it));
    }
  }

  private static void write(Page page, Mistake mistake) {
    StrengthReport.Change change = mistake.change();
    page.labelled(change.file().substring(change.file().lastIndexOf('/') + 1) + ":" + change.line(), 24,
        change.kind() + ": " + words(change) + (mistake.hazards().isEmpty() ? "" : "; " + words(mistake.hazards()))
            + (mistake.untold().isEmpty() ? "" : "; not noticed: " + words(mistake.untold()))
            + (mistake.differed() == 0 ? "" : "; outputs differed in " + mistake.differed() + ", as in "
                + mistake.where()) + (mistake.lost().isEmpty() ? "" : "; no longer put to the test: "
                    + String.join(", ",
                    mistake.lost().subList(0, Math.min(MOST_LOST, mistake.lost().size()))) + (mistake.lost().size()
                        > MOST_LOST ? " and " + (mistake.lost().size() - MOST_LOST) + " more" : "")));
  }

  private static String words(StrengthReport.Change change) {
    return "'" + cut(change.before()) + "'" + (change.after().isEmpty() || change.after().equals(";") ? " left out"
        : " became '" + cut(change.after()) + "'");
  }

  private static String cut(String words) {
    return words.length() <= MOST_WORDS ? words : words.substring(0, MOST_WORDS - 4) + " ...";
  }

  private static String words(Set<Truth.Kind> kinds) {
    return kinds.stream().sorted().map(Truth.Kind::words).collect(Collectors.joining(", "));
  }

  /** A row for each mistake, a column for each rule, as comma-separated values. */
  public static String table(StrengthReport report) {
    StringBuilder table = new StringBuilder("kind,file,line,before,after,what became of it,line ran,outputs differed,"
        + "no longer put to the test,hazards,not noticed in some run,where," + String.join(",", report.rules()) + "\n");
    for (Mistake it : report.mistakes()) {
      StrengthReport.Change change = it.change();
      table.append(String.join(",", quoted(change.kind()), quoted(change.file()), "" + change.line(),
          quoted(change.before()), quoted(change.after()), quoted(it.fate().words()), "" + it.ran(),
          "" + it.differed(), quoted(String.join(" ", it.lost())), quoted(words(it.hazards())),
          quoted(words(it.untold())), quoted(it.where())));
      it.noticedBy().forEach(count -> table.append(',').append(count));
      table.append('\n');
    }
    return table.toString();
  }

  private static String quoted(String text) {
    return "\"" + text.replace("\"", "\"\"") + "\"";
  }
}
