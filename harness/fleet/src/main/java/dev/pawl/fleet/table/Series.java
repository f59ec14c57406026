package dev.pawl.fleet.table;

import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What the sessions of a ride say about one rule, in the order of their days; those of no known day come last, in the
 * order of the manifest.
 */
final class Series {

  /** So few sessions, or days, are no trend and have no outlier. */
  private static final int FEW = 8;
  private static final int SHORT = 28;
  /** 99.9 %: many rules of many rides are looked at, and of a hundred that have no trend five would seem to at 95 %. */
  private static final double SURE = 3.2905;
  /** Iglewicz and Hoaglin 1993 (from memory): modified scores beyond 3.5, of 0.6745 times the distance by the MAD. */
  private static final double FAR = 3.5;
  private static final double MAD_OF_NORMAL = 0.6745;

  private final Rule rule;
  private final List<Point> points = new ArrayList<>();

  /**
   * What one session says.
   *
   * @param day empty where nothing says when it was
   * @param margin not a number where there is none
   */
  record Point(String session, Optional<LocalDate> day, Verdict verdict, double margin, String unit) {}

  /** The first session with a verdict, where others without it came before. */
  record First(Verdict verdict, Point point, int before) {}

  Series(Rule rule) {
    this.rule = rule;
  }

  void add(Point point) {
    points.add(point);
  }

  Rule rule() {
    return rule;
  }

  List<Point> points() {
    List<Point> sorted = new ArrayList<>(points);
    sorted.sort(Comparator.comparing(point -> point.day().orElse(LocalDate.MAX)));
    return sorted;
  }

  private List<Point> measured() {
    return points().stream().filter(point -> !Double.isNaN(point.margin())).toList();
  }

  /** How its margin changes with a day, where sessions enough say so. */
  Optional<Trend> trend() {
    List<Point> dated = measured().stream().filter(point -> point.day().isPresent()).toList();
    if (dated.size() < FEW || days(dated) < SHORT) {
      return Optional.empty();
    }
    double[] x = dated.stream().mapToDouble(point -> point.day().get().toEpochDay()).toArray();
    return Trend.of(x, dated.stream().mapToDouble(Point::margin).toArray(), SURE);
  }

  private static long days(List<Point> dated) {
    return dated.get(dated.size() - 1).day().get().toEpochDay() - dated.get(0).day().get().toEpochDay();
  }

  /** Sessions that came much nearer to breaking than the others. */
  List<Point> outliers() {
    List<Point> measured = measured();
    if (measured.size() < FEW) {
      return List.of();
    }
    double median = Trend.median(measured.stream().mapToDouble(Point::margin).toArray());
    double mad = Trend.median(measured.stream().mapToDouble(point -> Math.abs(point.margin() - median)).toArray());
    return mad == 0 ? List.of()
        : measured.stream().filter(point -> MAD_OF_NORMAL * (median - point.margin()) / mad > FAR).toList();
  }

  /** Verdicts that came up later than in the first session. */
  List<First> firsts() {
    Map<Verdict, First> firsts = new EnumMap<>(Verdict.class);
    List<Point> all = points();
    for (int i = 0; i < all.size(); i++) {
      firsts.putIfAbsent(all.get(i).verdict(), new First(all.get(i).verdict(), all.get(i), i));
    }
    return firsts.values().stream().filter(first -> first.before() > 0).toList();
  }
}
