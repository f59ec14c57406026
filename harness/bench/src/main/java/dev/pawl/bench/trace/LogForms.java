package dev.pawl.bench.trace;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.LongFunction;

/** The events of a campaign in the forms in which logs come. */
final class LogForms {

  private static final long START_MS = Instant.parse("2026-06-01T06:00:00Z").toEpochMilli();
  private static final String LONG = "time,signal,value\n";

  private final List<String[]> rows;

  /** A log and what has to be stated about it. */
  record Form(String name, byte[] bytes, long rows, String bindings) {}

  private LogForms(List<String[]> rows) {
    this.rows = rows;
  }

  /** Of a trace in the plainest form. */
  static LogForms of(String trace) {
    return new LogForms(trace.lines().skip(1).filter(line -> !line.startsWith("#")).map(line -> line.split(","))
        .toList());
  }

  List<Form> times() {
    return List.of(
        time("milliseconds", "time\n unit ms\n", ms -> Long.toString(ms)),
        time("milliseconds since 1970", "time\n unit ms since 1970\n", ms -> Long.toString(START_MS + ms)),
        time("microseconds since 1970", "time\n unit us since 1970\n", ms -> START_MS + ms + "000"),
        time("nanoseconds since 1970", "time\n unit ns since 1970\n", ms -> START_MS + ms + "000000"),
        time("seconds since 1970 with decimals", "time\n unit s since 1970\n", ms -> (START_MS + ms) / 1000
            + fraction(ms, ".")),
        time("seconds with nine decimals", "time\n unit s\n", ms -> ms / 1000 + fraction(ms, ".") + "000000"),
        time("RFC 3339 in UTC", "", date("yyyy-MM-dd'T'HH:mm:ss.SSS'Z'")),
        time("RFC 3339 with an offset", "", date("yyyy-MM-dd'T'HH:mm:ss.SSS'+00:00'")),
        time("RFC 3339 with nine decimals", "", date("yyyy-MM-dd'T'HH:mm:ss.SSSSSSSSS'Z'")),
        time("local times of a zone", "time\n zone +00:00\n", date("yyyy-MM-dd HH:mm:ss.SSS")),
        time("day before month", "time\n written \"day.month.year hour:minute:second\"\n zone UTC\n",
            date("dd.MM.yyyy HH:mm:ss.SSS")),
        time("halves of the day", "time\n written \"month/day/year hour:minute:second ampm\"\n zone UTC\n",
            date("M/d/yyyy h:mm:ss.SSS a")),
        time("no signs between", "time\n written yearmonthdayThourminutesecond\n zone UTC\n",
            date("yyyyMMdd'T'HHmmss.SSS")),
        time("elapsed hours, minutes, seconds", "time\n written hour:minute:second\n",
            ms -> ms / 3_600_000 + ":" + pair(ms / 60_000 % 60) + ":" + pair(ms / 1000 % 60) + fraction(ms, ".")));
  }

  List<Form> tables() {
    return List.of(
        log("time, signal, value", "time\n unit ms\n", LONG, row -> row[0] + "," + row[1] + "," + row[2]),
        log("with a quality", "time\n unit ms\n", "time,signal,value,quality\n", row -> row[0] + "," + row[1] + ","
            + row[2] + ",good"),
        log("with a quality as a number", "time\n unit ms\n", "time,signal,value,quality\n", row ->
            row[0] + "," + row[1] + "," + row[2] + ",192"),
        log("lines with carriage returns", "time\n unit ms\n", LONG, row -> row[0] + "," + row[1] + "," + row[2]
            + "\r"),
        log("columns in another order", "time\n unit ms\n", "signal,value,time\n", row -> row[1] + "," + row[2] + ","
            + row[0]),
        log("more columns, ignored", "time\n unit ms\nignore\n id, unit\n", "id,time,signal,value,unit\n",
            row -> "1," + row[0] + "," + row[1] + "," + row[2] + ",m"),
        log("date and time of day in two columns", "time\n zone UTC\ncolumns\n time Date Time\n",
            "Date,Time,signal,value\n", row -> date("yyyy-MM-dd','HH:mm:ss.SSS").apply(Long.parseLong(row[0])) + ","
            + row[1] + "," + row[2]),
        log("the time of day before the date", "time\n zone UTC\ncolumns\n time Date Time\n",
            "Time,Date,signal,value\n", row -> date("HH:mm:ss.SSS','yyyy-MM-dd").apply(Long.parseLong(row[0])) + ","
            + row[1] + "," + row[2]),
        log("bools in words", "time\n unit ms\nvalues\n true ON\n false OFF\n", LONG, row -> row[0] + "," + row[1] + ","
            + word(row[2])),
        log("decimal commas", "time\n unit ms\ncolumns\n separator semicolon\n decimal comma\n", LONG.replace(',', ';'),
            row -> row[0] + ";" + row[1] + ";" + row[2].replace('.', ',')),
        encoded(log("UTF-16", "time\n unit ms\n", LONG, row -> row[0] + "," + row[1] + "," + row[2])));
  }

  List<Form> wide() {
    String names = "time," + String.join(",", CampaignTrace.SIGNALS) + "\n";
    return List.of(
        looks("the time first", "time\n unit ms\n", names, ms -> ms + ",", ""),
        looks("the time last", "time\n unit ms\n", String.join(",", CampaignTrace.SIGNALS) + ",time\n", ms ->
            "", ",TIME"),
        looks("a separator at the end of each row", "time\n unit ms\n", names, ms -> ms + ",", ","),
        looks("date and time of day in two columns", "time\n zone UTC\ncolumns\n time Date Time\n",
            names.replaceFirst("time", "Date,Time"), ms -> date("yyyy-MM-dd','HH:mm:ss.SSS").apply(ms) + ",", ""),
        looks("day before month", "time\n written \"day.month.year hour:minute:second\"\n zone UTC\n", names,
            ms -> date("dd.MM.yyyy HH:mm:ss.SSS").apply(ms) + ",", ""));
  }

  List<Form> objects() {
    return List.of(
        log("time, signal, value", "", "", row -> "{\"time_ms\": " + row[0] + ", \"signal\": \"" + row[1]
            + "\", \"value\": " + row[2] + "}"),
        log("a key for each signal", "", "", row -> "{\"time_ms\": " + row[0] + ", \"" + row[1] + "\": " + row[2]
            + "}"),
        log("under values", "", "", row -> "{\"time_ms\": " + row[0] + ", \"values\": {\"" + row[1] + "\": " + row[2]
            + "}}"),
        log("a date with an offset", "", "", row -> "{\"time\": \"" + date("yyyy-MM-dd'T'HH:mm:ss.SSS'+00:00'")
            .apply(Long.parseLong(row[0])) + "\", \"" + row[1] + "\": " + row[2] + "}"),
        log("within objects", within(), "", row -> "{\"head\": {\"ms\": " + row[0] + "}, \"d\": {\"" + row[1] + "\": "
            + row[2] + "}}"));
  }

  private static String within() {
    StringBuilder bindings = new StringBuilder("time\n unit ms\ncolumns\n time \"/head/ms\"\nsignals\n");
    for (String signal : CampaignTrace.SIGNALS) {
      bindings.append(' ').append(signal).append(" from \"/d/").append(signal).append("\"\n");
    }
    return bindings.toString();
  }

  private Form time(String name, String bindings, LongFunction<String> times) {
    return log(name, bindings, LONG, row -> times.apply(Long.parseLong(row[0])) + "," + row[1] + "," + row[2]);
  }

  private Form log(String name, String bindings, String header, Function<String[], String> line) {
    StringBuilder text = new StringBuilder(header);
    rows.forEach(row -> text.append(line.apply(row)).append('\n'));
    return new Form(name, text.toString().getBytes(StandardCharsets.US_ASCII), rows.size(), bindings);
  }

  private static Form encoded(Form form) {
    byte[] bytes = new String(form.bytes(), StandardCharsets.US_ASCII).getBytes(StandardCharsets.UTF_16LE);
    return new Form(form.name(), bytes, form.rows(), form.bindings());
  }

  /** All signals at every tenth event, once all have a value. */
  private Form looks(String name, String bindings, String header, LongFunction<String> before, String after) {
    List<String> signals = Arrays.asList(CampaignTrace.SIGNALS);
    String[] values = new String[signals.size()];
    Arrays.fill(values, "0");
    StringBuilder text = new StringBuilder(header);
    long last = -1;
    int count = 0;
    List<String> lines = new ArrayList<>();
    for (String[] row : rows) {
      values[signals.indexOf(row[1])] = row[2];
      long ms = Long.parseLong(row[0]);
      if (count++ % 10 == 9 && ms != last) {
        lines.add(before.apply(ms) + String.join(",", values) + after.replace("TIME", Long.toString(ms)));
        last = ms;
      }
    }
    lines.forEach(line -> text.append(line).append('\n'));
    return new Form(name, text.toString().getBytes(StandardCharsets.US_ASCII), lines.size(), bindings);
  }

  private static LongFunction<String> date(String pattern) {
    DateTimeFormatter format = DateTimeFormatter.ofPattern(pattern, Locale.ROOT);
    return ms -> format.format(LocalDateTime.ofInstant(Instant.ofEpochMilli(START_MS + ms), ZoneOffset.UTC));
  }

  private static String fraction(long ms, String mark) {
    return mark + String.format(Locale.ROOT, "%03d", ms % 1000);
  }

  private static String pair(long number) {
    return number < 10 ? "0" + number : Long.toString(number);
  }

  private static String word(String value) {
    return value.equals("1") ? "ON" : value.equals("0") ? "OFF" : value;
  }
}
