package dev.pawl.trace.csv;

import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Problems;
import dev.pawl.trace.intake.Settings;
import dev.pawl.trace.intake.UnreadableTrace;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * What the columns of a trace hold.
 *
 * @param names the header's fields
 * @param time number of the time column
 * @param timeOfDay number of the column with the time of day, -1 if it stands with the date
 * @param signal number of the signal column, -1 in the wide form
 * @param value number of the value column, -1 in the wide form
 * @param quality number of the quality column, -1 if there is none
 */
record Header(List<String> names, int time, int timeOfDay, int signal, int value, int quality) {

  Header {
    names = List.copyOf(names);
  }

  int columns() {
    return names.size();
  }

  boolean isLong() {
    return signal >= 0;
  }

  /** The roles of the named columns. A signal and a value column make the long form. */
  static Header of(List<String> names, Settings settings, Intake intake, long line) throws UnreadableTrace {
    Problems problems = intake.problems();
    Map<String, Integer> places = new HashMap<>();
    int column = 1;
    for (int i = 0; i < names.size(); i++) {
      if (!names.get(i).isEmpty() && places.put(names.get(i), i) != null) {
        throw problems.fatal(ProblemKind.UNREADABLE, line, column, "two columns are called " + Excerpt.of(names.get(i)),
            "give each its own name, or call them by their numbers and say so under 'columns' in a bindings file: "
                + "header none,"
                + " rows from " + (line + 1));
      }
      column += names.get(i).length() + 1;
    }
    if (names.stream().anyMatch(name -> name.indexOf('\r') >= 0)) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "lines end in carriage returns alone",
          "convert them to LF or CRLF");
    }
    int foreign = names.stream().filter(name -> name.indexOf('\uFFFD') >= 0).findFirst().map(names::indexOf).orElse(-1);
    if (foreign >= 0) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "the name of column " + (foreign + 1)
          + " is not written in UTF-8: " + Excerpt.of(names.get(foreign)),
          "say under 'columns' in a bindings file how it is, such as: letters windows-1252");
    }
    int time = find(names, settings::isTime);
    if (time < 0) {
      throw noTime(names, settings, problems, line);
    }
    if (settings.contradicts(names.get(time))) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "the header says " + Excerpt.of(names.get(time))
          + ", but the unit of time is stated as " + settings.time().label(),
              "make them agree, or state it once");
    }
    int signal = find(names, settings::isSignal);
    int value = find(names, settings::isValue);
    if (signal >= 0 && value < 0) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "there is a column for signals but none for their values",
          "add one called value, or say under 'columns' in a bindings file what it is called");
    }
    int timeOfDay = settings.columns().timeOfDay().map(names::indexOf).orElse(-1);
    if (settings.columns().timeOfDay().isPresent() && timeOfDay < 0) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1,
          "the header has no column " + Excerpt.of(settings.columns().timeOfDay().get()) + " for the time of day",
          "say under 'columns' in a bindings file what it is called: time, then the column of the date, then that of "
              + "the time of day");
    }
    if (signal < 0) {
      return new Header(names, time, timeOfDay, -1, -1, -1);
    }
    Header header = new Header(names, time, timeOfDay, signal, value, find(names, settings::isQuality));
    Optional<String> extra = names.stream()
        .filter(name -> !name.isEmpty() && !header.isKnown(name) && !intake.channels().ignores(name)).findFirst();
    if (extra.isPresent()) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "column " + Excerpt.of(extra.get())
          + " has no meaning here",
          "the long form has the columns time, signal, value and, if need be, quality; list others under 'ignore' in "
              + "a bindings"
              + " file");
    }
    return header;
  }

  private boolean isKnown(String name) {
    int place = names.indexOf(name);
    return place == time || place == timeOfDay || place == signal || place == value || place == quality;
  }

  private static int find(List<String> names, Predicate<String> role) {
    for (int i = 0; i < names.size(); i++) {
      if (role.test(names.get(i))) {
        return i;
      }
    }
    return -1;
  }

  private static UnreadableTrace noTime(List<String> names, Settings settings, Problems problems, long line) {
    String only = names.get(0);
    if (names.size() == 1 && (only.indexOf(';') >= 0 || only.indexOf('\t') >= 0 || only.indexOf('|') >= 0)) {
      String name = only.indexOf(';') >= 0 ? "semicolon" : only.indexOf('\t') >= 0 ? "tab" : "bar";
      return problems.fatal(ProblemKind.UNREADABLE, line, 1,
          "fields seem to be separated by a " + name + ", not by a comma",
          "say so in a bindings file, under 'columns': separator " + name);
    }
    String wanted = settings.columns().time().map(Excerpt::of).orElse("'time'");
    if (!settings.columns().table().header()) {
      return problems.fatal(ProblemKind.UNREADABLE, line, 1, "none of the " + names.size() + " columns is " + wanted,
          "say under 'columns' in a bindings file which has the time, such as: time 1; or what all are called, such "
              + "as: names time_ms,"
              + " lift_run");
    }
    return problems.fatal(ProblemKind.UNREADABLE, line, 1, "the header " + Excerpt.of(String.join(",", names))
        + " has no column " + wanted,
        "start the file with a header such as time_ms,signal,value, or say under 'columns' in a bindings file what "
            + "its columns"
            + " are called, such as: time stamp; where the table begins, such as: header line 7; or that it has no "
            + "header: header"
            + " none");
  }
}
