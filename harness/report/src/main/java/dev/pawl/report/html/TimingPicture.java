package dev.pawl.report.html;

import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.Picture;
import dev.pawl.report.words.ValueText;
import java.util.List;
import java.util.Locale;

/**
 * The course of the signals behind one finding, drawn as inline SVG: one row per signal under the marked instants. What
 * looks alike is one path, because a browser prints by the shape.
 */
final class TimingPicture {

  private static final double LEFT = 168;
  private static final double PLOT = 560;
  private static final double RIGHT_ROOM = 52;
  private static final double MARK_ROW = 14;
  private static final double SWITCH_ROW = 30;
  private static final double NUMBER_ROW = 74;
  private static final int LONGEST_NAME = 24;
  /** Room for a letter of a mark's label. */
  private static final double LETTER = 6.9;
  private static final double DOT = 3.2;
  /** A circle of that radius from its left end on. */
  private static final String CIRCLE = "a3.2 3.2 0 1 0 6.4 0a3.2 3.2 0 1 0 -6.4 0";

  private final Markup svg;
  private final Picture picture;
  private final MarkedInstants moments;
  private final List<EvidenceResult> evidence;
  private final TimeAxis axis;

  TimingPicture(Markup svg, Picture picture, MarkedInstants moments, List<EvidenceResult> evidence) {
    this.svg = svg;
    this.picture = picture;
    this.moments = moments;
    this.evidence = evidence;
    this.axis = new TimeAxis(picture.from(), picture.to(), LEFT, PLOT);
  }

  /** Writes the picture; the description is what a person hears who does not see it. */
  void write(String description) {
    double top = 6 + MARK_ROW * moments.marks().size();
    double height = top;
    for (Picture.Track track : picture.tracks()) {
      height += rowHeight(track);
    }
    double bottom = height;
    svg.open("svg", "class", "timing", "viewBox", "0 0 " + number(LEFT + PLOT + RIGHT_ROOM) + " " + number(bottom + 26),
        "role",
        "img",
        "aria-label", description + (evidence.isEmpty() ? "." : ". The values are in the table below."));
    allowed(top, bottom);
    StringBuilder lines = new StringBuilder();
    StringBuilder dots = new StringBuilder();
    double y = top;
    for (Picture.Track track : picture.tracks()) {
      row(track, y, dots);
      y += rowHeight(track);
      lines.append("M0 ").append(number(y)).append('H').append(number(axis.right()));
    }
    path("rowline", lines);
    path("dot", dots);
    marks(bottom);
    ticks(bottom);
    svg.end();
  }

  private static double rowHeight(Picture.Track track) {
    return track.shape() == Picture.Shape.NUMBER ? NUMBER_ROW : SWITCH_ROW;
  }

  /** The stretch of time in which the rule allowed the response. */
  private void allowed(double top, double bottom) {
    if (moments.allowedUntil().isPresent() && moments.allowedUntil().getAsLong() > moments.origin()) {
      double x = axis.x(moments.origin());
      svg.lone("rect", "class", "allowed", "x", number(x), "y", number(top),
          "width", number(axis.x(moments.allowedUntil().getAsLong()) - x), "height", number(bottom - top));
    }
  }

  private void row(Picture.Track track, double y, StringBuilder dots) {
    double height = rowHeight(track);
    name(track.signal(), y + (track.shape() == Picture.Shape.NUMBER ? 20 : height - 10));
    TrackDrawing drawing = new TrackDrawing(svg, axis, track, y + 6, height - 12);
    switch (track.shape()) {
      case SWITCH -> drawing.steps(0, 1, true);
      case NAMES -> drawing.names();
      case NUMBER -> {
        svg.element("text", track.unit(), "class", "unit", "x", "0", "y", number(y + 36));
        drawing.scaled();
      }
    }
    if (track.cut()) {
      svg.element("text", "more changes than can be drawn", "class", "cut", "x", number(axis.right()), "y",
          number(y + 11),
          "text-anchor", "end");
    }
    for (EvidenceResult event : evidence) {
      if (event.signal().equals(track.signal()) && axis.holds(event.time())) {
        dots.append('M').append(number(axis.x(event.time()) - DOT)).append(' ').append(number(drawing.level(event
            .time()))).append(CIRCLE);
      }
    }
  }

  private void name(String signal, double y) {
    svg.open("text", "class", "name", "x", "0", "y", number(y));
    if (signal.length() > LONGEST_NAME) {
      svg.element("title", signal).text(signal.substring(0, LONGEST_NAME - 1) + "\u2026").close();
    } else {
      svg.text(signal).close();
    }
  }

  private void path(String style, CharSequence path) {
    if (!path.isEmpty()) {
      svg.lone("path", "class", style, "d", path.toString());
    }
  }

  private void marks(double bottom) {
    for (int i = 0; i < moments.marks().size(); i++) {
      MarkedInstants.Mark mark = moments.marks().get(i);
      if (!axis.holds(mark.time())) {
        continue;
      }
      String x = number(axis.x(mark.time()));
      double labelled = MARK_ROW * (i + 1) - 2;
      svg.lone("line", "class", "instant " + mark.style(), "x1", x, "x2", x, "y1", number(labelled - 9), "y2",
          number(bottom));
      boolean left = axis.x(mark.time()) + 5 + mark.label().length() * LETTER > axis.right() + RIGHT_ROOM;
      svg.element("text", mark.label(), "class", "marked " + mark.style(), "x",
          number(axis.x(mark.time()) + (left ? -5 : 5)),
          "y", number(labelled), "text-anchor", left ? "end" : "start");
    }
  }

  private void ticks(double bottom) {
    StringBuilder strokes = new StringBuilder();
    for (long tick : axis.ticks(moments.origin())) {
      String x = number(axis.x(tick));
      strokes.append('M').append(x).append(' ').append(number(bottom)).append("v5");
      svg.element("text", axis.label(tick, moments.origin()), "class", "time", "x", x, "y", number(bottom + 18),
          "text-anchor", "middle");
    }
    path("tick", strokes);
  }

  static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }

  static String shown(double value) {
    return ValueText.number(new java.math.BigDecimal(value).round(new java.math.MathContext(4)).doubleValue());
  }
}
