package dev.pawl.trace.site;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.tukaani.xz.LZMA2Options;
import org.tukaani.xz.XZOutputStream;

/** The session in each of the forms, as plain texts: what is independent of the readers cannot share their mistakes. */
final class Exports {

  private static final ZoneId VIENNA = ZoneId.of("Europe/Vienna");
  private static final String HEADER = "lift_run,estop_chain,lift_speed,motor_heat,mode";

  private Exports() {}

  static Stream<Export> all() {
    return Stream.of(times(), tables(), values(), objects(), encodings()).flatMap(exports -> exports);
  }

  private static Stream<Export> times() {
    return Stream.of(
        Export.dated("local times over a change of clocks", "time\n zone Europe/Vienna\n twice in order\n",
            wide("time", local("yyyy-MM-dd HH:mm:ss.SSS"))),
        Export.dated("times without an offset, in UTC", "time\n zone UTC\n",
            wide("time", utc("yyyy-MM-dd'T'HH:mm:ss.SSS"))),
        Export.dated("times of a clock that is never put forward", "time\n zone +01:00\n",
            wide("time", row -> format("yyyy-MM-dd HH:mm:ss.SSS", row, ZoneOffset.ofHours(1)))),
        Export.dated("offsets behind a space", "", wide("time", row ->
            format("yyyy-MM-dd HH:mm:ss.SSS xx", row, VIENNA))),
        Export.dated("offsets without a colon", "", wide("time", row ->
            format("yyyy-MM-dd HH:mm:ss.SSSxx", row, VIENNA))),
        Export.dated("day before month",
            "time\n written \"day.month.year hour:minute:second\"\n zone Europe/Vienna\n twice in order\n",
            wide("time", local("dd.MM.yyyy HH:mm:ss.SSS"))),
        Export.dated("month before day, in two halves of the day",
            "time\n written \"month/day/year hour:minute:second ampm\"\n zone UTC\n",
            wide("time", utc("M/d/yyyy h:mm:ss.SSS a"))),
        Export.dated("names of months", "time\n written \"day-month-year hour:minute:second\"\n zone UTC\n",
            wide("time", utc("dd-MMM-yyyy HH:mm:ss.SSS"))),
        Export.dated("days of the week, the year last",
            "time\n written \"weekday month day hour:minute:second year\"\n zone UTC\n",
            wide("time", utc("EEE MMM dd HH:mm:ss.SSS yyyy"))),
        Export.dated("dates without a sign between", "time\n written \"yearmonthdayThourminutesecond\"\n zone UTC\n",
            wide("time", utc("yyyyMMdd'T'HHmmss.SSS"))),
        Export.dated("years of two digits, milliseconds after a colon",
            "time\n written \"year2/month/day hour:minute:second:fraction\"\n zone UTC\n",
                wide("time", utc("yy/MM/dd HH:mm:ss:SSS"))),
        Export.dated("a pattern with its own offset", "time\n written \"day.month.year hour:minute:second offset\"\n",
            wide("time", row -> format("dd.MM.yyyy HH:mm:ss.SSS xxx", row, VIENNA))),
        Export.dated("date and time of day in two columns", "time\n zone UTC\ncolumns\n time Date Time\n",
            wide("Date,Time", utc("yyyy-MM-dd','HH:mm:ss.SSS"))),
        Export.dated("date and time of day in two columns, by a pattern",
            "time\n written \"day.month.year hour:minute:second\"\n zone UTC\ncolumns\n time Datum Uhrzeit\n "
                + "separator semicolon\n",
            wide("Datum,Uhrzeit", utc("dd.MM.yyyy','HH:mm:ss.SSS")).replace(',', ';')),
        Export.dated("the time of day before the date", "time\n zone UTC\ncolumns\n time Date Time\n",
            wide("Time,Date", utc("HH:mm:ss.SSS','yyyy-MM-dd"))),
        Export.dated("microseconds since 1970", "time\n unit us since 1970\n",
            wide("time", row -> row.at().toEpochMilli() + "000")),
        Export.dated("nanoseconds since 1970", "time\n unit ns since 1970\n",
            wide("time", row -> row.at().toEpochMilli() + "000000")),
        Export.dated("seconds since 1970 with decimals", "time\n unit s since 1970\n",
            wide("time", row -> BigDecimal.valueOf(row.at().toEpochMilli(), 3).toPlainString())),
        Export.elapsed("elapsed seconds", "", wide("time_s", row -> BigDecimal.valueOf(row.ms(), 3).toPlainString())),
        Export.elapsed("elapsed hours, minutes and seconds", "time\n written hour:minute:second\n",
            wide("time", row -> "%d:%02d:%02d.%03d".formatted(row.ms() / 3_600_000, row.ms() / 60_000 % 60,
                row.ms() / 1000 % 60, row.ms() % 1000))));
  }

  private static Stream<Export> tables() {
    Function<Session.Row, String> seconds = row -> BigDecimal.valueOf(row.ms(), 3).toPlainString();
    String plain = wide("time_s", seconds);
    String turned = table("mode;when;run;speed;chain;heat\n", row -> row.mode() + ";" + row.ms() + ";" + bit(row.run())
        + ";" + row.mph() + ";" + bit(row.healthy()) + ";" + row.heat());
    String names =
        "signals\n lift_run from run\n estop_chain from chain\n lift_speed from speed\n motor_heat from heat\n";
    return Stream.of(
        Export.elapsed("decimal commas", "columns\n separator semicolon\n decimal comma\n", plain.replace(',', ';')
            .replace('.', ',')),
        Export.elapsed("spaces around fields, and rows of separators alone", "columns\n spaces dropped\n",
            plain.replace(",", " , ") + ",,,,,\n  , ,,,, \n"),
        Export.elapsed("tabs", "columns\n separator tab\n", plain.replace(',', '\t')),
        Export.elapsed("bars", "columns\n separator bar\n", plain.replace(',', '|')),
        Export.elapsed("a separator at the end of each row", "", plain.replaceAll("(\n[0-9].*)", "$1,")),
        Export.elapsed("a separator at the end of each line", "", plain.replace("\n", ",\r\n")),
        Export.elapsed("an index column without a name", "", plain.replaceAll("(?m)^(?=[0-9])", "17,")
            .replaceFirst("time_s", ",time_s")),
        Export.elapsed("an index column that the header leaves out", "columns\n unnamed first\n",
            plain.replaceAll("(?m)^(?=[0-9])", "\"17\",")),
        Export.elapsed("a last column that the header leaves out", "columns\n unnamed last\n",
            plain.replaceAll("(\n[0-9].*)", "$1,ok")),
        Export.elapsed("no header, columns by name", "columns\n header none\n names time_s, " + HEADER + "\n",
            plain.substring(plain.indexOf('\n') + 1)),
        Export.elapsed("no header, columns by number",
            "time\n unit s\ncolumns\n header none\n time 4\n signal 1\n value 2\n quality 3\n",
            table("", row -> longRows(row, "", ",192," + BigDecimal.valueOf(row.ms(), 3).toPlainString()))),
        Export.elapsed("lines before the table, and units below the header", "columns\n header line 5\n rows from 7\n",
            "Station;Lift 1\nExport of \"today\"\n\n***\n" + plain.replaceFirst("\n", "\ns,,,mph,degC,\n")),
        Export.elapsed("a word in brackets above the table", "columns\n header line 3\n", "[Data]\n\n" + plain),
        Export.elapsed("a header behind a sign of remarks", "columns\n header line 1\n", "# " + plain),
        Export.elapsed("columns that no rule knows", "ignore\n \"*\"\n", plain.replace("\n", ",-\n")
            .replaceFirst(",-", ",operator")),
        Export.elapsed("columns in another order", "time\n unit ms\ncolumns\n time when\n separator semicolon\n"
            + names, turned),
        Export.elapsed("a row for each value, with more columns than that",
            "time\n unit ms\ncolumns\n time stamp\n signal tag\n value val\nignore\n id, remark\n",
            table("id,tag,val,remark,stamp\n", row -> longRows(row, "7,", ",none," + row.ms()))));
  }

  private static Stream<Export> values() {
    Function<Session.Row, String> seconds = row -> BigDecimal.valueOf(row.ms(), 3).toPlainString();
    return Stream.of(
        Export.elapsed("bools in words", "values\n true ON, Closed\n false OFF, Open\n",
            spelt(seconds, row -> row.run() ? "ON" : "OFF", row -> row.healthy() ? "Closed" : "Open")),
        Export.elapsed("bools as numbers", "values\n true -1, 1.0\n false 0.0\n",
            spelt(seconds, row -> row.run() ? "1.0" : "0.0", row -> row.healthy() ? "-1" : "0")),
        Export.elapsed("qualities as numbers of OPC", "", table("time_s,signal,value,quality\n",
            row -> longRows(row, seconds.apply(row) + ",", row.run() ? ",216" : ",0x00C0"))));
  }

  private static Stream<Export> objects() {
    return Stream.of(
        Export.dated("objects with a key for each signal", "columns\n time ts\nignore\n host\n", table("",
            row -> "{\"ts\":\"%s\",\"host\":\"plc-1\",\"lift_run\":%s,\"estop_chain\":%s,\"lift_speed\":%s,\"motor_heat\":%s,\"mode\":\"%s\"}"
                .formatted(row.at(), row.run(), row.healthy(), row.mph(), row.heat(), row.mode()))),
        Export.dated("objects within objects, and lists",
            "time\n unit us since 1970\ncolumns\n time \"/head/us\"\nsignals\n lift_run from \"/bits/0\"\n "
                + "estop_chain from \"/bits/1\"\n"
                + " lift_speed from \"/drive/v\"\n motor_heat from \"/drive/t\"\n mode from m where 0 = off, 1 = "
                + "manual, 2 = automatic\n",
            table("", row ->
                "{\"head\": {\"us\": %d000}, \"bits\": [%b, %b], \"drive\": {\"v\": %s, \"t\": %s}, \"m\": %d}"
                .formatted(row.at().toEpochMilli(), row.run(), row.healthy(), row.mph(), row.heat(),
                    row.modeNumber()))),
        Export.dated("lists", "time\n unit ms since 1970\ncolumns\n time \"/0\"\nsignals\n lift_run from \"/1\"\n "
            + "estop_chain from \"/2\"\n lift_speed from \"/3/0\"\n motor_heat from \"/3/1\"\n mode from \"/4\"\n",
            table("", row -> "[%d, %b, %b, [%s, %s], \"%s\"]".formatted(row.at().toEpochMilli(), row.run(),
                row.healthy(), row.mph(), row.heat(), row.mode()))),
        Export.dated("objects of one value, with more keys",
            "time\n zone UTC\ncolumns\n time at\n signal \"/tag/name\"\n value v\nignore\n id, unit\n",
            table("", row -> objectRows(row))));
  }

  private static Stream<Export> encodings() {
    String plain = wide("time_s", row -> BigDecimal.valueOf(row.ms(), 3).toPlainString());
    String marked = "\uFEFF" + plain;
    return Stream.of(
        encoded("UTF-16 with its mark, lower byte first", marked.getBytes(StandardCharsets.UTF_16LE)),
        encoded("UTF-16 with its mark, upper byte first", marked.getBytes(StandardCharsets.UTF_16BE)),
        encoded("UTF-16 without a mark, lower byte first", plain.getBytes(StandardCharsets.UTF_16LE)),
        encoded("UTF-16 without a mark, upper byte first", plain.getBytes(StandardCharsets.UTF_16BE)),
        new Export("a value change dump with an odd timescale, wide vectors and an alias",
            dump().getBytes(StandardCharsets.UTF_8),
                "signals\n lift_run from io.k1\n estop_chain from io.es\n lift_speed from io.v times 0.01\n"
                + " motor_heat from io.t times 0.1\nignore\n k1\n", false),
        new Export("letters of one byte each",
            plain.replace("lift_run", "Fahrstra\u00dfe").getBytes(StandardCharsets.ISO_8859_1),
            "columns letters windows-1252\nsignals lift_run from \"Fahrstra\u00dfe\"\n", false),
        encoded("gzip", packed(plain.getBytes(StandardCharsets.UTF_8), GZIPOutputStream::new)),
        encoded("xz", packed(plain.getBytes(StandardCharsets.UTF_8), out ->
            new XZOutputStream(out, new LZMA2Options()))),
        encoded("zip of UTF-16", zipped(plain.getBytes(StandardCharsets.UTF_16LE))));
  }

  private static String dump() {
    return "$timescale 25 us $end\n$scope module plc $end $var wire 1 ! k1 $end $upscope $end\n$scope module io $end\n"
        + "$var wire 1 ! k1 $end $var wire 1 \" es $end $var reg 64 # v [63:0] $end $var integer 32 $ t $end $upscope "
        + "$end\n"
        + "$var reg 2 % mode $end\n$enddefinitions $end\n"
        + table("", row -> "#%d %s! %s\" b%s # b%s $ b%s %%".formatted(row.ms() * 40, bit(row.run()),
            bit(row.healthy()), Long.toBinaryString(row.mph().unscaledValue().longValue()),
            Integer.toBinaryString(row.heat().unscaledValue().intValue()), Integer.toBinaryString(row.modeNumber())));
  }

  private static Export encoded(String name, byte[] bytes) {
    return new Export(name, bytes, "", false);
  }

  /** Opens a stream that packs. */
  interface Packing {
    OutputStream into(OutputStream out) throws IOException;
  }

  static byte[] packed(byte[] bytes, Packing packing) {
    ByteArrayOutputStream result = new ByteArrayOutputStream();
    try (OutputStream out = packing.into(result)) {
      out.write(bytes);
    } catch (IOException e) {
      throw new UncheckedIOException("bytes in memory can always be written", e);
    }
    return result.toByteArray();
  }

  /** A folder, the file, and what one system puts beside it. */
  private static byte[] zipped(byte[] bytes) {
    return packed(bytes, out -> {
      ZipOutputStream zip = new ZipOutputStream(out);
      zip.putNextEntry(new ZipEntry("export/"));
      zip.putNextEntry(new ZipEntry("__MACOSX/._lift.csv"));
      zip.putNextEntry(new ZipEntry("export/lift.csv"));
      return zip;
    });
  }

  private static String objectRows(Session.Row row) {
    String at = format("yyyy-MM-dd HH:mm:ss.SSS", row, ZoneOffset.UTC);
    return Stream.of("lift_run\"},\"v\":" + row.run(), "estop_chain\"},\"v\":" + row.healthy(), "lift_speed\"},\"v\":"
        + row.mph(), "motor_heat\"},\"v\":" + row.heat(), "mode\"},\"v\":\"" + row.mode() + "\"")
        .map(value -> "{\"id\":1,\"at\":\"" + at + "\",\"tag\":{\"name\":\"" + value + ",\"unit\":null}")
            .collect(Collectors.joining("\n"));
  }

  private static String spelt(Function<Session.Row, String> times, Function<Session.Row, String> run,
      Function<Session.Row, String> healthy) {
    return table("time_s," + HEADER + "\n", row -> times.apply(row) + "," + run.apply(row) + "," + healthy.apply(row)
        + "," + row.mph() + "," + row.heat() + "," + row.mode());
  }

  private static String longRows(Session.Row row, String before, String after) {
    return Stream.of("lift_run," + bit(row.run()), "estop_chain," + bit(row.healthy()), "lift_speed," + row.mph(),
        "motor_heat," + row.heat(), "mode," + row.mode()).map(value -> before + value + after)
        .collect(Collectors.joining("\n"));
  }

  private static String bit(boolean value) {
    return value ? "1" : "0";
  }

  private static String wide(String time, Function<Session.Row, String> times) {
    return table(time + "," + HEADER + "\n", row -> times.apply(row) + "," + bit(row.run()) + "," + bit(row.healthy())
        + "," + row.mph() + "," + row.heat() + "," + row.mode());
  }

  static String table(String header, Function<Session.Row, String> row) {
    List<String> lines = Session.rows().stream().map(row).toList();
    return header + String.join("\n", lines) + "\n";
  }

  private static Function<Session.Row, String> local(String pattern) {
    return row -> format(pattern, row, VIENNA);
  }

  private static Function<Session.Row, String> utc(String pattern) {
    return row -> format(pattern, row, ZoneOffset.UTC);
  }

  private static String format(String pattern, Session.Row row, ZoneId zone) {
    return DateTimeFormatter.ofPattern(pattern, Locale.ROOT).format(row.at().atZone(zone));
  }
}
