package dev.pawl.fleet.table;

import dev.pawl.engine.Verdict;
import dev.pawl.fleet.archive.Archive;
import dev.pawl.fleet.manifest.Manifest;
import dev.pawl.report.model.TraceResult;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What deserves a look in an archive, in the order in which it does. */
final class SummaryPage {

  /** Lines of one subject; the tables have all. */
  private static final int MOST = 20;

  private final List<Shrinking> shrinking = new ArrayList<>();
  private final List<String> broken = new ArrayList<>();
  private final List<String> outliers = new ArrayList<>();
  private final List<String> unreadable = new ArrayList<>();
  private final List<String> undated = new ArrayList<>();
  private int sessions;

  /** A margin that gets less, with the days that are left until it is none at that pace. */
  private record Shrinking(double days, String words) {}

  void add(Manifest.RuleSet set, Archive.Judged each, Optional<LocalDate> day) {
    sessions++;
    TraceResult result = each.judged().result();
    if (result.rules().isEmpty()) {
      unreadable.add(set.name() + ", " + each.session().name() + ": " + result.reading().failure());
    } else if (day.isEmpty()) {
      undated.add(set.name() + ", " + each.session().name());
    }
  }

  void add(Manifest.RuleSet set, Series series) {
    String name = set.name() + ", " + series.rule().id();
    series.trend().filter(trend -> trend.high() < 0).ifPresent(trend -> {
      List<Series.Point> points = series.points();
      double last = points.stream().filter(point -> point.day().isPresent()).reduce((one, other) -> other).orElseThrow()
          .day().get().toEpochDay();
      double now = trend.middle() + trend.slope() * (last - trend.at());
      double left = Math.max(0, now / -trend.slope());
      String unit = Tables.unit(points);
      shrinking.add(new Shrinking(left, String.format(Locale.ROOT, "%s: %.3g %s less every 30 days (between %.3g and"
          + " %.3g), now about %.3g %s: at this pace none is left in %.0f days", name, -30 * trend.slope(), unit,
              -30 * trend.high(), -30 * trend.low(), now, unit, left)));
    });
    series.firsts().stream().filter(first -> first.verdict() == Verdict.BROKEN).forEach(first -> broken.add(name
        + ": first broken in " + first.point().session() + day(first.point()) + ", after " + first.before()
        + (first.before() == 1 ? " session" : " sessions")));
    series.outliers().forEach(point -> outliers.add(String.format(Locale.ROOT, "%s: %s%s, a margin of %.3g %s", name,
        point.session(), day(point), point.margin(), point.unit())));
  }

  private static String day(Series.Point point) {
    return point.day().map(day -> " on " + day).orElse("");
  }

  String text() {
    StringBuilder text = new StringBuilder();
    text.append(sessions).append(sessions == 1 ? " session" : " sessions").append("\n");
    shrinking.sort(Comparator.comparingDouble(Shrinking::days));
    section(text, "Margins that get less (" + Tables.TRENDS + ")", shrinking.stream().map(Shrinking::words).toList());
    section(text, "Rules broken for the first time after sessions in which they were not (" + Tables.FIRSTS + ")",
        broken);
    section(text, "Sessions much nearer to breaking than the others (" + Tables.OUTLIERS + ")", outliers);
    section(text, "Sessions that could not be judged (" + Tables.SESSIONS + ")", unreadable);
    section(text, "Sessions of no known day, which have no part in trends", undated);
    return text.toString();
  }

  private static void section(StringBuilder text, String title, List<String> lines) {
    text.append('\n').append(title).append(": ").append(lines.isEmpty() ? "none" : lines.size()).append('\n');
    lines.stream().limit(MOST).forEach(line -> text.append("  ").append(line).append('\n'));
    if (lines.size() > MOST) {
      text.append("  and ").append(lines.size() - MOST).append(" more\n");
    }
  }
}
