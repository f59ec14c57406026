package dev.pawl.fleet.table;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import dev.pawl.engine.Verdict;
import dev.pawl.fleet.archive.Archive;
import dev.pawl.fleet.manifest.Manifest;
import dev.pawl.fleet.table.Series.Point;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Writes the tables of an archive, set by set, and gathers what the page of the summary says. */
public final class Tables implements Closeable {

  public static final String SESSIONS = "sessions.csv";
  public static final String MONTHS = "months.csv";
  public static final String TRENDS = "trends.csv";
  public static final String FIRSTS = "firsts.csv";
  public static final String OUTLIERS = "outliers.csv";

  /** What a table says in place of a verdict for a session that could not be judged. */
  public static final String UNREADABLE = "unreadable";

  private static final int MIDDLE_OF_MONTH = 15;

  private final CsvWriter sessions;
  private final CsvWriter months;
  private final CsvWriter trends;
  private final CsvWriter firsts;
  private final CsvWriter outliers;
  private final SummaryPage page = new SummaryPage();

  /** Begins the tables in a folder that is there. */
  public Tables(Path folder) throws IOException {
    sessions = table(folder, SESSIONS, "ride", "set", "session", "day", "trace", "rule", "severity", "verdict",
        "obligations", "met", "missed", "undecided", "margin", "unit", "margin_at_most", "failure");
    months = table(folder, MONTHS, "ride", "set", "rule", "month", "sessions", "held", "broken", "undecided",
        "not_exercised", "margin_least", "margin_median", "unit");
    trends = table(folder, TRENDS, "ride", "set", "rule", "sessions", "margin_a_day", "low", "high", "margin_median",
        "unit");
    firsts = table(folder, FIRSTS, "ride", "set", "rule", "verdict", "session", "day", "sessions_before");
    outliers = table(folder, OUTLIERS, "ride", "set", "rule", "session", "day", "margin", "unit");
  }

  private static CsvWriter table(Path folder, String name, String... columns) throws IOException {
    CsvWriter table = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(Files.newBufferedWriter(folder.resolve(
        name)));
    return table.writeRecord(columns);
  }

  /** Writes what the sessions of a set came to. */
  public void add(Manifest.RuleSet set, RuleBook book, Stream<Archive.Judged> judged) {
    List<Series> series = book.rules().stream().map(Series::new).toList();
    judged.forEach(each -> add(set, book, each, series));
    for (Series of : series) {
      months(set, of);
      page.add(set, of);
      of.trend().ifPresent(trend -> trends.writeRecord(set.ride(), set.name(), of.rule().id(), "" + of.points().stream()
          .filter(point -> !Double.isNaN(point.margin())).count(), "" + trend.slope(), "" + trend.low(), ""
              + trend.high(), "" + trend.middle(), unit(of.points())));
      of.firsts().forEach(first -> firsts.writeRecord(set.ride(), set.name(), of.rule().id(), word(first.verdict()),
          first.point().session(), day(first.point()), "" + first.before()));
      of.outliers().forEach(point -> outliers.writeRecord(set.ride(), set.name(), of.rule().id(), point.session(), day(
          point), "" + point.margin(), point.unit()));
    }
  }

  private void add(Manifest.RuleSet set, RuleBook book, Archive.Judged each, List<Series> series) {
    TraceResult result = each.judged().result();
    Optional<LocalDate> day = each.session().day().map(Tables::stated).or(() -> recorded(result));
    String said = each.session().day().or(() -> day.map(LocalDate::toString)).orElse("");
    page.add(set, each, day);
    if (result.rules().isEmpty()) {
      for (Rule rule : book.rules()) {
        sessions.writeRecord(set.ride(), set.name(), each.session().name(), said, result.path(), rule.id(), severity(
            rule), UNREADABLE, "", "", "", "", "", "", "", result.reading().failure());
      }
    }
    for (RuleResult rule : result.rules()) {
      Optional<MarginResult> margin = rule.margin();
      sessions.writeRecord(set.ride(), set.name(), each.session().name(), said, result.path(), rule.rule().id(),
          severity(rule.rule()), word(rule.verdict()), "" + rule.obligations().arisen(), "" + rule.obligations().met(),
          "" + rule.obligations().missed(), "" + rule.undecided(), margin.map(it -> "" + it.value()).orElse(""), margin
              .map(MarginResult::unit).orElse(""), margin.map(it -> "" + it.atMost()).orElse(""), result.reading()
                  .failure());
      series.get(rule.rule().index()).add(new Point(each.session().name(), day, rule.verdict(), margin.map(
          MarginResult::value).orElse(Double.NaN), margin.map(MarginResult::unit).orElse("")));
    }
  }

  private void months(Manifest.RuleSet set, Series series) {
    Map<String, List<Point>> byMonth = new TreeMap<>();
    series.points().forEach(point -> byMonth.computeIfAbsent(point.day().map(day -> YearMonth.from(day).toString())
        .orElse(""), unused -> new ArrayList<>()).add(point));
    byMonth.forEach((month, points) -> {
      double[] margins = points.stream().mapToDouble(Point::margin).filter(it -> !Double.isNaN(it)).sorted().toArray();
      months.writeRecord(set.ride(), set.name(), series.rule().id(), month, "" + points.size(), count(points,
          Verdict.HELD), count(points, Verdict.BROKEN), count(points, Verdict.UNDECIDED), count(points,
              Verdict.NOT_EXERCISED), margins.length == 0 ? "" : "" + margins[0], margins.length == 0 ? ""
                  : "" + Trend.median(margins), unit(points));
    });
  }

  private static String count(List<Point> points, Verdict verdict) {
    return "" + points.stream().filter(point -> point.verdict() == verdict).count();
  }

  static String unit(List<Point> points) {
    return points.stream().map(Point::unit).filter(unit -> !unit.isEmpty()).findFirst().orElse("");
  }

  static String day(Point point) {
    return point.day().map(LocalDate::toString).orElse("");
  }

  static String word(Verdict verdict) {
    return verdict.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private static String severity(Rule rule) {
    return rule.severity().name().toLowerCase(Locale.ROOT);
  }

  /** The day that the manifest states; of a month its middle. */
  private static LocalDate stated(String day) {
    return day.length() == "YYYY-MM".length() ? YearMonth.parse(day).atDay(MIDDLE_OF_MONTH) : LocalDate.parse(day);
  }

  /** The day on which a trace with dates begins, by the clock of its site. */
  private static Optional<LocalDate> recorded(TraceResult result) {
    if (result.rules().isEmpty() || result.timeBase().kind() != TimeBase.Kind.EPOCH) {
      return Optional.empty();
    }
    String zone = result.timeBase().zone();
    return Optional.of(LocalDate.ofInstant(Instant.ofEpochSecond(0, result.start()), ZoneId.of(zone.isEmpty() ? "UTC"
        : zone)));
  }

  /** What deserves a look, as a page of text. */
  public String summary() {
    return page.text();
  }

  @Override
  public void close() {
    for (CsvWriter table : List.of(sessions, months, trends, firsts, outliers)) {
      try {
        table.close();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
