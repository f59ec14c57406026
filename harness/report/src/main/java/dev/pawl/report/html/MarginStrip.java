package dev.pawl.report.html;

import dev.pawl.report.model.MarginResult;
import dev.pawl.report.words.FindingWords;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Margins of traces on one axis, a stroke each: what was met stands above the axis, and what was missed reaches
 * through it, behind the marked limit. Several rows share the axis, so that they can be compared. A row is two shapes
 * however many traces it has, because a browser prints by the shape.
 */
final class MarginStrip {

  private static final double LEFT = 20;
  private static final double WIDTH = 700;
  private static final double ROW = 36;
  private static final double STROKE = 14;
  private static final double SCALE = 20;

  /**
   * Margins in one unit.
   *
   * @param name what is written beside them; empty where there is one row only
   */
  record Row(String name, List<MarginResult> margins) {}

  private final Markup svg;
  private final List<Row> rows;
  private final double least;
  private final double most;

  /**
   * A strip.
   *
   * @param allowed what the rule allows, to which the axis reaches
   */
  MarginStrip(Markup svg, List<Row> rows, OptionalDouble allowed) {
    this.svg = svg;
    this.rows = rows;
    double[] values = rows.stream().flatMap(row -> row.margins().stream()).mapToDouble(MarginResult::value).toArray();
    double low = 0;
    double high = allowed.orElse(0);
    for (double value : values) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    this.least = low;
    this.most = high;
  }

  /** Writes the strip; the description is what a person hears who does not see it. */
  void write(String description) {
    if (most <= least) {
      return;
    }
    double bottom = ROW * rows.size();
    svg.open("svg", "class", "timing strip", "viewBox", "0 0 " + TimingPicture.number(LEFT * 2 + WIDTH) + " "
        + TimingPicture.number(bottom + SCALE), "role", "img", "aria-label", description);
    for (int i = 0; i < rows.size(); i++) {
      row(rows.get(i), ROW * (i + 1) - 8);
    }
    svg.lone("line", "class", "instant break", "x1", x(0), "x2", x(0), "y1", "4", "y2", TimingPicture.number(bottom));
    label("limit", 0, least < 0 ? "middle" : "start", bottom);
    if (least < 0) {
      label(size(least), least, "start", bottom);
    }
    if (most > 0) {
      label(size(most), most, "end", bottom);
    }
    svg.end();
  }

  private void row(Row row, double axis) {
    svg.lone("line", "class", "tick", "x1", x(least), "x2", x(most), "y1", TimingPicture.number(axis), "y2",
        TimingPicture.number(axis));
    strokes("met", row.margins().stream().filter(margin -> margin.value() >= 0).toList(), axis, STROKE);
    strokes("missed", row.margins().stream().filter(margin -> margin.value() < 0).toList(), axis + STROKE / 2,
        STROKE * 3 / 2);
    if (!row.name().isEmpty()) {
      svg.element("text", row.name(), "class", "name", "x", x(least), "y", TimingPicture.number(axis - STROKE - 2));
    }
  }

  private void strokes(String style, List<MarginResult> margins, double foot, double height) {
    StringBuilder path = new StringBuilder();
    for (MarginResult margin : margins) {
      path.append('M').append(x(margin.value())).append(' ').append(TimingPicture.number(foot)).append('v')
          .append(TimingPicture.number(-height));
    }
    if (!path.isEmpty()) {
      svg.lone("path", "class", style, "d", path.toString());
    }
  }

  private void label(String text, double value, String anchor, double bottom) {
    svg.element("text", text, "class", "time", "x", x(value), "y", TimingPicture.number(bottom + 12), "text-anchor",
        anchor);
  }

  private String size(double value) {
    String unit = rows.stream().flatMap(row -> row.margins().stream()).findFirst().orElseThrow().unit();
    return FindingWords.margin(new MarginResult(value, unit, 0, 0, false));
  }

  private String x(double value) {
    return TimingPicture.number(LEFT + (value - least) / (most - least) * WIDTH);
  }
}
