package dev.pawl.trace.site;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.tukaani.xz.LZMA2Options;
import org.tukaani.xz.XZOutputStream;

/**
 * The session as systems nobody knows would write it: each choice of a form is drawn, with what has to be stated of it.
 */
final class DrawnExports {

  private static final List<String> SIGNALS = List.of("lift_run", "estop_chain", "lift_speed", "motor_heat", "mode");
  private static final List<String> TAGS = List.of("LIFT.K1 RUN", "ES-Chain", "v", "T/1", "Mode Of Operation");

  private final Random random;
  private final List<String> choices = new ArrayList<>();
  private final List<String> time = new ArrayList<>();
  private final List<String> columns = new ArrayList<>();
  private final List<String> signals = new ArrayList<>();
  private final List<String> ignored = new ArrayList<>();
  private final List<String> values = new ArrayList<>();

  private DrawnExports(long seed) {
    random = new Random(seed);
  }

  /** A way to write times. */
  private record Times(String name, boolean dated, String column, List<String> stated,
      Function<Session.Row, String> text) {}

  static Stream<Export> all(int count) {
    return IntStream.range(0, count).mapToObj(seed -> {
      DrawnExports drawn = new DrawnExports(seed);
      return seed % 4 == 3 ? drawn.objects() : drawn.table(seed % 4 == 2);
    });
  }

  private boolean oneOf(int count, String choice) {
    boolean taken = random.nextInt(count) == 0;
    if (taken) {
      choices.add(choice);
    }
    return taken;
  }

  private <T> T drawn(List<T> from) {
    return from.get(random.nextInt(from.size()));
  }

  private static Function<Session.Row, String> dates(String pattern, ZoneId zone) {
    return row -> DateTimeFormatter.ofPattern(pattern, Locale.ROOT).format(row.at().atZone(zone));
  }

  private Times times() {
    ZoneId vienna = ZoneId.of("Europe/Vienna");
    Times times = drawn(List.of(
        new Times("elapsed seconds", false, "time_s", List.of(), row -> BigDecimal.valueOf(row.ms(), 3).toString()),
        new Times("elapsed milliseconds", false, "t", List.of("unit ms"), row -> Long.toString(row.ms())),
        new Times("milliseconds since 1970", true, "stamp", List.of("unit ms since 1970"),
            row -> Long.toString(row.at().toEpochMilli())),
        new Times("dates with an offset", true, "time", List.of(), dates("yyyy-MM-dd'T'HH:mm:ss.SSSXXX", vienna)),
        new Times("local dates", true, "time", List.of("zone Europe/Vienna", "twice in order"),
            dates("yyyy-MM-dd HH:mm:ss.SSS", vienna)),
        new Times("day before month", true, "Zeit",
            List.of("written \"day.month.year hour:minute:second\"", "zone +01:00"),
            dates("dd.MM.yyyy HH:mm:ss.SSS", ZoneOffset.ofHours(1))),
        new Times("halves of the day", true, "When",
            List.of("written \"month/day/year hour:minute:second ampm\"", "zone UTC"),
            dates("M/d/yyyy h:mm:ss.SSS a", ZoneOffset.UTC))));
    choices.add(times.name);
    time.addAll(times.stated);
    if (!times.column.startsWith("time")) {
      columns.add("time " + times.column);
    }
    return times;
  }

  /** By signal, what it is called. */
  private List<String> tags() {
    if (!oneOf(2, "tags of its own")) {
      return SIGNALS;
    }
    for (int i = 0; i < TAGS.size(); i++) {
      signals.add(SIGNALS.get(i) + " from \"" + TAGS.get(i) + "\"");
    }
    return TAGS;
  }

  private Function<Boolean, String> bools() {
    if (!oneOf(2, "bools in words")) {
      return value -> value ? "1" : "0";
    }
    values.add("true Closed");
    values.add("false Open");
    return value -> value ? "Closed" : "Open";
  }

  private static List<String> cells(Session.Row row, Function<Boolean, String> bools) {
    return List.of(bools.apply(row.run()), bools.apply(row.healthy()), row.mph().toString(), row.heat().toString(),
        row.mode());
  }

  private Export table(boolean isLong) {
    choices.add(isLong ? "a row for each value" : "a column for each signal");
    Times times = times();
    Function<Boolean, String> bools = bools();
    List<String> tags = tags();
    String separator = drawn(List.of(",", ";", "\t", "|"));
    if (!separator.equals(",")) {
      columns.add("separator " + (separator.equals(";") ? "semicolon" : separator.equals("\t") ? "tab" : "bar"));
    }
    boolean commas = !separator.equals(",") && oneOf(2, "decimal commas");
    if (commas) {
      columns.add("decimal comma");
    }
    List<String> names = new ArrayList<>(List.of(times.column));
    names.addAll(isLong ? List.of("signal", "value") : tags);
    if (isLong && oneOf(2, "qualities")) {
      names.add("quality");
    }
    if (oneOf(3, "a column that no rule knows")) {
      names.add("operator");
      ignored.add("operator");
    }
    List<Integer> order = new ArrayList<>(IntStream.range(0, names.size()).boxed().toList());
    Collections.shuffle(order, random);
    List<String> lines = new ArrayList<>();
    for (Session.Row row : Session.rows()) {
      List<String> cells = cells(row, bools);
      for (int i = 0; i < (isLong ? tags.size() : 1); i++) {
        List<String> fields = new ArrayList<>(List.of(times.text.apply(row)));
        fields.addAll(isLong ? List.of(tags.get(i), cells.get(i)) : cells);
        fields.add(isLong && names.contains("quality") ? "192" : "eve");
        fields.add("eve");
        lines.add(line(fields, order, separator, commas));
      }
    }
    String ending = oneOf(3, "a separator at the end of each line") ? separator : "";
    return written(times, head(names, order, separator), lines, ending);
  }

  private static String line(List<String> fields, List<Integer> order, String separator, boolean commas) {
    return order.stream().map(fields::get).map(field -> commas ? field.replaceAll("(\\d)\\.(\\d+)$", "$1,$2") : field)
        .collect(Collectors.joining(separator));
  }

  /** What stands above the rows; what is stated of it goes into the columns. */
  private List<String> head(List<String> names, List<Integer> order, String separator) {
    List<String> ordered = order.stream().map(names::get).toList();
    if (oneOf(4, "no header")) {
      columns.add("header none");
      columns.add("names " + ordered.stream().map(name -> "\"" + name + "\"").collect(Collectors.joining(", ")));
      return List.of();
    }
    List<String> head = new ArrayList<>();
    if (oneOf(3, "lines before the table")) {
      head.addAll(List.of("Station: lift 1", "", "made by nobody"));
      columns.add("header line 4");
    }
    head.add(String.join(separator, ordered));
    if (oneOf(3, "a row of units")) {
      head.add(ordered.stream().map(name -> "-").collect(Collectors.joining(separator)));
      columns.add("rows from " + (head.size() + 1));
    }
    return head;
  }

  private Export objects() {
    choices.add("objects");
    Times times = times();
    List<String> tags = tags();
    boolean nested = tags == SIGNALS && oneOf(2, "objects within objects");
    if (nested) {
      SIGNALS.forEach(signal -> signals.add(signal + " from \"/plc/" + signal + "\""));
    }
    boolean host = oneOf(2, "a key that no rule knows");
    if (host) {
      ignored.add("host");
    }
    List<String> lines = new ArrayList<>();
    for (Session.Row row : Session.rows()) {
      List<String> cells = List.of(Boolean.toString(row.run()), Boolean.toString(row.healthy()), row.mph().toString(),
          row.heat().toString(), "\"" + row.mode() + "\"");
      String members = IntStream.range(0, tags.size()).mapToObj(i -> "\"" + tags.get(i) + "\": "
          + cells.get(i)).collect(Collectors.joining(", "));
      lines.add("{\"" + times.column + "\": " + (times.text.apply(row).matches("[0-9.]+") ? times.text.apply(row)
          : "\"" + times.text.apply(row) + "\"") + ", " + (host ? "\"host\": \"plc-1\", " : "")
          + (nested ? "\"plc\": {" + members + "}" : members) + "}");
    }
    return written(times, List.of(), lines, "");
  }

  private Export written(Times times, List<String> head, List<String> lines, String ending) {
    String end = ending + (oneOf(2, "carriage returns") ? "\r\n" : "\n");
    String text = Stream.concat(head.stream(), lines.stream()).map(line -> line + end).collect(Collectors.joining());
    byte[] bytes = switch (random.nextInt(4)) {
      case 0 -> chosen("UTF-16", ("\uFEFF" + text).getBytes(StandardCharsets.UTF_16LE));
      case 1 -> chosen("a byte order mark", ("\uFEFF" + text).getBytes(StandardCharsets.UTF_8));
      default -> text.getBytes(StandardCharsets.UTF_8);
    };
    byte[] packed = switch (random.nextInt(4)) {
      case 0 -> chosen("gzip", Exports.packed(bytes, GZIPOutputStream::new));
      case 1 -> chosen("xz", Exports.packed(bytes, out -> new XZOutputStream(out, new LZMA2Options())));
      default -> bytes;
    };
    return new Export(String.join(", ", choices), packed, bindings(), times.dated);
  }

  private byte[] chosen(String choice, byte[] bytes) {
    choices.add(choice);
    return bytes;
  }

  private String bindings() {
    StringBuilder text = new StringBuilder();
    section(text, "time", time);
    section(text, "columns", columns);
    section(text, "signals", signals);
    section(text, "ignore", ignored);
    section(text, "values", values);
    return text.toString();
  }

  private static void section(StringBuilder text, String name, List<String> entries) {
    if (!entries.isEmpty()) {
      text.append(name).append('\n');
      entries.forEach(entry -> text.append("  ").append(entry).append('\n'));
    }
  }
}
