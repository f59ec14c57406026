package dev.pawl.trace.survey;

import dev.pawl.trace.bindings.BindingsFile;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.IntStream;

/** The rows of a table: its separator and header are found out by its first lines. */
final class TableRows {

  private static final char[] SEPARATORS = {',', ';', '\t', '|'};
  private static final String[] SEPARATOR_WORDS = {"comma", "semicolon", "tab", "bar"};
  /** So many lines at most stand between the header and the first row: units, and the like. */
  private static final int UNITS = 2;
  private static final List<String> TIME = List.of("time", "stamp", "date", "zeit", "datum", "ts", "clock");
  private static final List<String> DATE = List.of("date", "datum", "day");
  private static final List<String> TIME_OF_DAY = List.of("time", "zeit", "uhrzeit", "clock");
  private static final List<String> SIGNAL = List.of("signal", "tag", "tagname", "name", "point", "variable", "item");
  private static final List<String> VALUE = List.of("value", "val", "wert", "data");
  private static final List<String> QUALITY = List.of("quality", "q", "status");

  private final int separator;
  private final List<String> header;
  private final int headerLine;
  private final boolean hasNames;
  private final int time;
  private final int timeOfDay;
  private final int signal;
  private final int value;
  private final int quality;
  private final TimeGuess times;
  private final Map<String, SeenTag> tags;
  /** The first row that could be read; -1 before any. */
  private int firstRow = -1;
  private long rows;
  private long strange;
  private boolean commas;
  private boolean spaces;

  /**
   * A table.
   *
   * @param first its first lines
   * @param tags takes what is seen
   */
  TableRows(List<String> first, Map<String, SeenTag> tags) {
    this.tags = tags;
    separator = separator(first);
    headerLine = headerLine(first);
    List<String> names = fields(first.get(headerLine));
    hasNames = names.stream().noneMatch(name -> name.length() > 1 && TimeGuess.isTime(name));
    header = hasNames ? names : IntStream.rangeClosed(1, names.size()).mapToObj(Integer::toString).toList();
    signal = find(name -> SIGNAL.contains(name) || name.equals("tag name"));
    value = signal < 0 ? -1 : find(VALUE::contains);
    quality = find(QUALITY::contains);
    int date = find(DATE::contains);
    timeOfDay = date < 0 ? -1 : find(TIME_OF_DAY::contains);
    time = timeOfDay < 0 ? time(first) : date;
    times = new TimeGuess(header.get(time));
  }

  private static int separator(List<String> first) {
    Map<Integer, Integer> lines = new HashMap<>();
    for (String line : first) {
      int most = 0;
      for (int i = 1; i < SEPARATORS.length; i++) {
        most = count(line, SEPARATORS[i]) > count(line, SEPARATORS[most]) ? i : most;
      }
      // A decimal comma is no separator where something else parts the fields as well.
      int other = most == 0 ? count(line, ';') > 0 ? 1 : count(line, '\t') > 0 ? 2 : 0 : most;
      lines.merge(other, 1, Integer::sum);
    }
    return lines.entrySet().stream().max(Map.Entry.comparingByValue()).map(Map.Entry::getKey).orElse(0);
  }

  private static int count(String line, char sought) {
    return (int) line.chars().filter(c -> c == sought).count();
  }

  /** The first line that has as many fields as most, and says something in at least half of them. */
  private int headerLine(List<String> first) {
    Map<Integer, Integer> counts = new HashMap<>();
    first.forEach(line -> counts.merge(fields(line).size(), 1, Integer::sum));
    int usual = counts.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow().getKey();
    for (int line = 0; line < first.size(); line++) {
      List<String> fields = fields(first.get(line));
      if (fields.size() == usual && fields.stream().filter(field -> !field.isEmpty()).count() * 2 >= usual) {
        return line;
      }
    }
    return 0;
  }

  private int find(Predicate<String> wanted) {
    for (int column = 0; column < header.size(); column++) {
      if (wanted.test(header.get(column).toLowerCase(Locale.ROOT))) {
        return column;
      }
    }
    return -1;
  }

  private int time(List<String> first) {
    int named = find(name -> TIME.stream().anyMatch(word -> name.equals(word) || name.startsWith(word + "_")
        || name.endsWith(word)));
    if (named >= 0) {
      return named;
    }
    List<String> row = fields(first.get(hasNames ? Math.min(headerLine + 1, first.size() - 1) : headerLine));
    for (int column = 0; column < Math.min(row.size(), header.size()); column++) {
      if (row.get(column).length() > 1 && TimeGuess.isTime(row.get(column))) {
        return column;
      }
    }
    return 0;
  }

  /** Takes the line of this number, from 0. */
  void take(int number, String line) {
    List<String> fields = fields(line);
    if (number < headerLine || hasNames && number == headerLine) {
      return;
    }
    rows++;
    if (fields.size() < header.size()) {
      strange++;
      return;
    }
    String written = timeOfDay < 0 ? fields.get(time) : fields.get(time) + " " + fields.get(timeOfDay);
    if (firstRow < 0 && number <= headerLine + UNITS && !TimeGuess.isTime(written)) {
      rows--;
      return;
    }
    firstRow = firstRow < 0 ? number : firstRow;
    double seconds = times.seconds(written);
    strange += Double.isNaN(seconds) ? 1 : 0;
    commas |= separator > 0 && fields.stream().anyMatch(field -> field.matches("-?[0-9]+,[0-9]+"));
    if (signal >= 0 && value >= 0) {
      seen(fields.get(signal)).take(fields.get(value), seconds);
      return;
    }
    for (int column = 0; column < header.size(); column++) {
      if (column != time && column != timeOfDay && !header.get(column).isEmpty()) {
        seen(header.get(column)).take(fields.get(column), seconds);
      }
    }
  }

  private SeenTag seen(String tag) {
    return tags.computeIfAbsent(tag, SeenTag::new);
  }

  private List<String> fields(String line) {
    List<String> fields = new ArrayList<>();
    StringBuilder field = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      if (c == '"') {
        quoted = !quoted;
      } else if (c == SEPARATORS[separator] && !quoted) {
        fields.add(stripped(field.toString()));
        field.setLength(0);
      } else {
        field.append(c);
      }
    }
    fields.add(stripped(field.toString()));
    return fields;
  }

  private String stripped(String field) {
    String text = field.strip();
    spaces |= text.length() < field.length();
    return text;
  }

  /**
   * What was seen.
   *
   * @param numbers in which line of the file each of the first lines stands
   */
  LogSurvey survey(List<Integer> numbers) {
    List<String> columns = new ArrayList<>();
    String called = header.get(time);
    if (timeOfDay >= 0) {
      columns.add("time " + BindingsFile.word(called) + " " + BindingsFile.word(header.get(timeOfDay)));
    } else if (!called.equals("time") && !called.matches("time_(s|ms|us|ns)")) {
      columns.add("time " + BindingsFile.word(called));
    }
    if (signal >= 0 && value >= 0) {
      named(columns, "signal", signal);
      named(columns, "value", value);
      if (quality >= 0) {
        named(columns, "quality", quality);
      }
    }
    if (separator > 0) {
      columns.add("separator " + SEPARATOR_WORDS[separator]);
    }
    int firstLine = firstRow < 0 || firstRow >= numbers.size() ? 0 : numbers.get(firstRow);
    if (!hasNames) {
      columns.add("header none");
    } else if (numbers.get(headerLine) > 1) {
      columns.add("header line " + numbers.get(headerLine));
    }
    if (firstLine > (hasNames ? numbers.get(headerLine) + 1 : 1)) {
      columns.add("rows from " + firstLine);
    }
    if (commas) {
      columns.add("decimal comma");
    }
    if (spaces) {
      columns.add("spaces dropped");
    }
    return new LogSurvey(signal >= 0 && value >= 0 ? "a table with a row for each value"
        : "a table with a column for each tag", columns, times.seen(), List.copyOf(tags.values()), rows, strange);
  }

  private void named(List<String> columns, String role, int column) {
    if (!header.get(column).equals(role)) {
      columns.add(role + " " + BindingsFile.word(header.get(column)));
    }
  }

  /** Nothing that is no text could be surveyed. */
  static Optional<String> obstacle(List<String> first) {
    return first.isEmpty() ? Optional.of("there is no row in it")
        : first.get(0).startsWith("$") ? Optional.of("a value change dump is read by the names of its variables; bind"
            + " those")
        : first.stream().anyMatch(line -> line.indexOf('\0') >= 0) ? Optional.of("it is no text") : Optional.empty();
  }
}
