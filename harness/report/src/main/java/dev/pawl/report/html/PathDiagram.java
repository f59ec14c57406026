package dev.pawl.report.html;

import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.TrainPaths;
import dev.pawl.report.model.Truth;
import dev.pawl.report.words.TimeText;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Where trains were, drawn as inline SVG: place against time, a line for each train and a band for each zone, and over
 * it what failed, what people did, which rules broke and what truly happened. Lines differ in their dashes and marks in
 * their shapes, so that nothing rests on colour.
 */
final class PathDiagram {

  private static final double LEFT = 118;
  private static final double PLOT = 800;
  private static final double HEIGHT = 300;
  private static final double RIGHT_ROOM = 24;
  private static final double LANE = 17;
  private static final double FOOT = 26;
  private static final double NAME = 50;
  /** Marks nearer than this have no room for a number between them. */
  private static final double NEAR = 30;
  /** Longer than this a run is drawn in rows below each other. */
  private static final long ROW = 600_000_000_000L;
  private static final int MOST_ROWS = 12;
  private static final int MOST_MARKS = 60;
  private static final String[] DASHES = {"none", "9 4", "2.5 3.5", "12 3 3 3"};

  private final Markup svg;
  private final TraceResult trace;
  private final Truth truth;
  private final TrainPaths paths;
  private final Map<String, Integer> trains = new LinkedHashMap<>();
  private final List<Mark> marks = new ArrayList<>();

  /** Kinds of marks, each with a lane of its own. */
  private enum Kind {
    FAULT("failed", "M-4.5 -4H4.5L0 4.5Z"),
    HAND("done", "M0 -4.5V4.5M-2.5 2L0 4.5L2.5 2"),
    RULE("broken", "M0 -5L5 0L0 5L-5 0Z"),
    TRUTH("happened", "M-4 -4L4 4M-4 4L4 -4");

    private final String words;
    private final String shape;

    Kind(String words, String shape) {
      this.words = words;
      this.shape = shape;
    }
  }

  private record Mark(Kind kind, long time, String words, String sign) {}

  PathDiagram(Markup svg, TraceResult trace, Truth truth, TrainPaths paths) {
    this.svg = svg;
    this.trace = trace;
    this.truth = truth;
    this.paths = paths;
    paths.paths().forEach(it -> trains.putIfAbsent(it.train(), trains.size()));
  }

  void write() {
    if (paths.paths().isEmpty() || trace.end() <= trace.start()) {
      return;
    }
    collect();
    svg.open("figure", "class", "paths");
    svg.element("figcaption", "Where the trains were: metres along the track, a line for the nose of each train");
    long end = Math.min(trace.end(), trace.start() + MOST_ROWS * ROW);
    for (long from = trace.start(); from < end; from += ROW) {
      row(from, end - trace.start() <= ROW ? end : Math.min(from + ROW, trace.end()));
    }
    if (end < trace.end()) {
      svg.element("p", "What comes after " + TimeText.at(trace.timeBase(), end) + " is not drawn.");
    }
    legend();
    svg.end();
  }

  /** All marks, lane by lane; each has a number by which the list below names it. */
  private void collect() {
    List<Mark> all = new ArrayList<>();
    paths.done().forEach(it -> all.add(new Mark(it.fault() ? Kind.FAULT : Kind.HAND, it.time(), it.words(), "")));
    for (RuleResult rule : trace.rules()) {
      rule.broken().stream().min(Comparator.comparingLong(it -> it.time())).ifPresent(first -> all.add(new Mark(
          Kind.RULE, first.time(), rule.rule().id() + (rule.broken().size() > 1 ? ", and again later" : ""), "")));
    }
    truth.happenings().forEach(it -> all.add(new Mark(Kind.TRUTH, it.time(), it.words(), "")));
    all.sort(Comparator.comparing(Mark::kind).thenComparingLong(Mark::time));
    // Where there are too many, what people did on an ordinary day goes first.
    List<Mark> kept = all.size() <= MOST_MARKS ? all : all.stream().filter(it -> it.kind() != Kind.HAND).toList();
    for (int i = 0; i < Math.min(kept.size(), MOST_MARKS); i++) {
      marks.add(new Mark(kept.get(i).kind(), kept.get(i).time(), kept.get(i).words(), String.valueOf(i + 1)));
    }
  }

  private List<Kind> lanes() {
    return Arrays.stream(Kind.values()).filter(kind -> marks.stream().anyMatch(it -> it.kind() == kind))
        .toList();
  }

  private void row(long from, long to) {
    TimeAxis axis = new TimeAxis(from, from + Math.max(to - from, Math.min(ROW, trace.end() - trace.start())), LEFT,
        PLOT);
    double top = LANE * lanes().size() + 4;
    double bottom = top + HEIGHT;
    svg.open("svg", "class", "timing", "viewBox", "0 0 " + number(LEFT + PLOT + RIGHT_ROOM) + " "
        + number(bottom + FOOT), "role", "img", "aria-label", "Trains along the track from "
            + TimeText.at(trace.timeBase(), from) + " to " + TimeText.at(trace.timeBase(), to));
    zones(axis, top);
    for (int i = 0; i < lanes().size(); i++) {
      lane(lanes().get(i), axis, LANE * i + 10, bottom);
    }
    for (TrainPaths.Path path : paths.paths()) {
      line(path, axis, top, from, to);
    }
    svg.lone("rect", "class", "frame", "x", number(LEFT), "y", number(top), "width", number(PLOT), "height",
        number(HEIGHT));
    for (long tick : axis.ticks(trace.start())) {
      String x = number(axis.x(tick));
      svg.lone("line", "class", "tick", "x1", x, "x2", x, "y1", number(bottom), "y2", number(bottom + 5));
      svg.element("text", axis.label(tick, trace.start()).replace("+", ""), "class", "time", "x", x, "y",
          number(bottom + 18), "text-anchor", "middle");
    }
    svg.end();
  }

  private double y(double place, double top) {
    return top + HEIGHT * (1 - place / paths.length());
  }

  /** Every other zone has a ground; one that runs over the end of the lap lies at both ends. */
  private void zones(TimeAxis axis, double top) {
    for (int i = 0; i < paths.zones().size(); i++) {
      TrainPaths.Zone zone = paths.zones().get(i);
      double over = Math.max(0, zone.to() - paths.length());
      band(i, zone.from(), zone.to() - over, axis, top);
      if (over > 0) {
        band(i, 0, over, axis, top);
      }
      double middle = (zone.from() + zone.to() - over) / 2;
      String name = zone.name().length() > 16 ? zone.name().substring(0, 15) + "\u2026" : zone.name();
      svg.element("text", name, "class", "zone", "x", number(LEFT - 6), "y", number(y(middle, top) + 3.5),
          "text-anchor", "end");
    }
  }

  private void band(int index, double from, double to, TimeAxis axis, double top) {
    svg.lone("rect", "class", index % 2 == 0 ? "ground" : "ground bare", "x", number(LEFT), "y", number(y(to, top)),
        "width", number(PLOT), "height", number(y(from, top) - y(to, top)));
    svg.lone("line", "class", "rowline", "x1", number(LEFT), "x2", number(axis.right()), "y1", number(y(from, top)),
        "y2", number(y(from, top)));
  }

  /** Marks that lie too near for their numbers to stand side by side share one place for them. */
  private void lane(Kind kind, TimeAxis axis, double y, double bottom) {
    svg.element("text", kind.words, "class", "unit", "x", number(LEFT - 6), "y", number(y + 4), "text-anchor", "end");
    List<Mark> here = marks.stream().filter(it -> it.kind() == kind && axis.holds(it.time())).toList();
    String signs = "";
    for (int i = 0; i < here.size(); i++) {
      double x = axis.x(here.get(i).time());
      mark(here.get(i), x, y, bottom);
      signs = signs.isEmpty() ? here.get(i).sign() : signs.replaceAll("\u2013.*", "") + "\u2013" + here.get(i).sign();
      if (i + 1 == here.size() || axis.x(here.get(i + 1).time()) - x > NEAR) {
        svg.element("text", signs, "class", "sign", "x", number(x + 6), "y", number(y + 4));
        signs = "";
      }
    }
  }

  private void mark(Mark mark, double at, double y, double bottom) {
    String x = number(at);
    if (mark.kind() != Kind.HAND) {
      svg.lone("line", "class", "at", "x1", x, "x2", x, "y1", number(y + 5), "y2", number(bottom));
    }
    svg.open("path", "class", "mark " + mark.kind().name().toLowerCase(Locale.ROOT), "d", mark.kind().shape,
        "transform", "translate(" + x + " " + number(y) + ")");
    svg.element("title", TimeText.at(trace.timeBase(), mark.time()) + " " + mark.words()).close();
  }

  /** A train's line, cut where a lap ends. */
  private void line(TrainPaths.Path path, TimeAxis axis, double top, long from, long to) {
    StringBuilder way = new StringBuilder();
    List<TrainPaths.Point> points = path.points();
    double round = paths.length();
    boolean named = false;
    for (int i = 0; i + 1 < points.size(); i++) {
      TrainPaths.Point a = points.get(i);
      TrainPaths.Point b = points.get(i + 1);
      if (b.time() < from || a.time() > to) {
        continue;
      }
      double at = at(a, b, Math.max(a.time(), from));
      double until = at(a, b, Math.min(b.time(), to));
      long time = Math.max(a.time(), from);
      double lap = Math.floor(Math.min(at, until) / round) * round;
      if (!named || way.length() == 0) {
        named = true;
        double y = y(at - lap, top);
        // Side by side, where trains begin near each other.
        double x = axis.x(time) + 4 + NAME * trains.get(path.train());
        svg.element("text", path.train(), "class", "name", "x", number(x), "y", number(y - top < 14 ? y + 12 : y - 4));
        move(way, 'M', axis.x(time), y(at - lap, top));
      }
      while (until > lap + round) {
        long edge = a.time() + Math.round((lap + round - a.place()) / (b.place() - a.place()) * (b.time() - a.time()));
        move(way, 'L', axis.x(edge), y(round, top));
        move(way, 'M', axis.x(edge), y(0, top));
        lap += round;
      }
      move(way, 'L', axis.x(Math.min(b.time(), to)), y(until - lap, top));
    }
    if (way.length() > 0) {
      svg.lone("path", "class", "train", "d", way.toString(), "stroke-dasharray", DASHES[trains.get(path.train())
          % DASHES.length]);
    }
  }

  private static double at(TrainPaths.Point a, TrainPaths.Point b, long time) {
    return a.place() + (b.place() - a.place()) * (time - a.time()) / Math.max(1, b.time() - a.time());
  }

  private static void move(StringBuilder way, char how, double x, double y) {
    way.append(how).append(number(x)).append(' ').append(number(y));
  }

  private void legend() {
    svg.open("p", "class", "trains");
    trains.forEach((train, index) -> {
      svg.open("svg", "class", "timing key", "viewBox", "0 0 60 10", "role", "presentation");
      svg.lone("path", "class", "train", "d", "M0 5H60", "stroke-dasharray", DASHES[index % DASHES.length]);
      svg.close().text(" " + train + "  ");
    });
    svg.end();
    svg.open("ol", "class", "marks");
    for (Mark mark : marks) {
      svg.open("li").open("b").text(mark.kind().words).close().text(" at " + TimeText.at(trace.timeBase(), mark.time())
          + ": " + mark.words()).end();
    }
    svg.end();
  }

  private static String number(double value) {
    return TimingPicture.number(value);
  }
}
