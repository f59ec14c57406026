package dev.pawl.trace.csv;

import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Problems;
import dev.pawl.trace.intake.Settings;
import dev.pawl.trace.intake.UnreadableTrace;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/**
 * What the columns of a trace hold.
 *
 * @param names the header's fields
 * @param time number of the time column
 * @param signal number of the signal column, -1 in the wide form
 * @param value number of the value column, -1 in the wide form
 * @param quality number of the quality column, -1 if there is none
 */
record Header(List<String> names, int time, int signal, int value, int quality) {

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
  static Header of(List<String> names, Settings settings, Problems problems, long line) throws UnreadableTrace {
    Map<String, Integer> places = new HashMap<>();
    int column = 1;
    for (int i = 0; i < names.size(); i++) {
      if (places.put(names.get(i), i) != null) {
        throw problems.fatal(ProblemKind.UNREADABLE, line, column, "two columns are called " + Excerpt.of(names.get(i)),
            "give each column its own name");
      }
      column += names.get(i).length() + 1;
    }
    if (names.stream().anyMatch(name -> name.indexOf('\r') >= 0)) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "lines end in carriage returns alone",
          "convert them to LF or CRLF");
    }
    int time = find(names, settings::isTime);
    if (time < 0) {
      throw noTime(names, settings, problems, line);
    }
    if (settings.contradicts(names.get(time))) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "the header says " + Excerpt.of(names.get(time))
          + ", but the unit of time is stated as " + settings.timeScale().orElseThrow().label(),
              "make them agree, or state it once");
    }
    int signal = find(names, settings::isSignal);
    int value = find(names, settings::isValue);
    if (signal >= 0 && value < 0) {
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "there is a column for signals but none for their values",
          "add one called value, or say under 'columns' in a bindings file what it is called");
    }
    if (signal < 0) {
      return new Header(names, time, -1, -1, -1);
    }
    Header header = new Header(names, time, signal, value, find(names, settings::isQuality));
    int known = header.quality < 0 ? 3 : 4;
    if (names.size() > known) {
      String extra = names.stream().filter(name -> !header.isKnown(name)).findFirst().orElseThrow();
      throw problems.fatal(ProblemKind.UNREADABLE, line, 1, "column " + Excerpt.of(extra) + " has no meaning here",
          "the long form has the columns time, signal, value and, if need be, quality");
    }
    return header;
  }

  private boolean isKnown(String name) {
    int place = names.indexOf(name);
    return place == time || place == signal || place == value || place == quality;
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
    if (names.size() == 1 && (only.indexOf(';') >= 0 || only.indexOf('\t') >= 0)) {
      String name = only.indexOf(';') >= 0 ? "semicolon" : "tab";
      return problems.fatal(ProblemKind.UNREADABLE, line, 1,
          "fields seem to be separated by a " + name + ", not by a comma",
          "say so in a bindings file, under 'columns': separator " + name);
    }
    String wanted = settings.columns().time().map(Excerpt::of).orElse("'time'");
    return problems.fatal(ProblemKind.UNREADABLE, line, 1, "the header " + Excerpt.of(String.join(",", names))
        + " has no column "
        + wanted,
            "start the file with a header such as time_ms,signal,value, or say under 'columns' in a bindings file what"
            + " its columns"
        + " are called");
  }
}
