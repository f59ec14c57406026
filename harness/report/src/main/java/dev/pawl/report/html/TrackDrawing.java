package dev.pawl.report.html;

import dev.pawl.report.model.Picture;

/**
 * One signal drawn into its row: a step line, as the signal keeps each value until its next change; hatched where it is
 * unknown.
 */
final class TrackDrawing {

  private static final double LEAST_LABELLED = 34;

  private final Markup svg;
  private final TimeAxis axis;
  private final Picture.Track track;
  private final double top;
  private final double height;
  private double low;
  private double range = 1;

  /**
   * A drawing in a row.
   *
   * @param top upper edge of what may be drawn on
   * @param height of what may be drawn on
   */
  TrackDrawing(Markup svg, TimeAxis axis, Picture.Track track, double top, double height) {
    this.svg = svg;
    this.axis = axis;
    this.track = track;
    this.top = top;
    this.height = height;
  }

  /** Steps between two values, with the area under the line filled where that helps to see it. */
  void steps(double least, double most, boolean filled) {
    low = least;
    range = Math.max(most - least, 1e-12);
    StringBuilder line = new StringBuilder();
    StringBuilder high = new StringBuilder();
    unknownBefore();
    for (int i = 0; i < track.times().length; i++) {
      double x = axis.x(track.times()[i]);
      double end = end(i);
      if (Double.isNaN(track.values()[i])) {
        unknown(x, end);
        continue;
      }
      double y = y(track.values()[i]);
      boolean joined = i > 0 && !Double.isNaN(track.values()[i - 1]);
      String begin = TimingPicture.number(x) + " " + TimingPicture.number(y) + "H" + TimingPicture.number(end);
      line.append(joined ? "L" : "M").append(begin);
      if (filled && track.values()[i] > least && end > x) {
        high.append('M').append(begin).append('V').append(TimingPicture.number(top + height)).append('H')
            .append(TimingPicture.number(x)).append('z');
      }
    }
    if (!high.isEmpty()) {
      svg.lone("path", "class", "high", "d", high.toString());
    }
    if (!line.isEmpty()) {
      svg.lone("path", "class", "course", "d", line.toString());
    }
  }

  private double y(double value) {
    return top + height - (value - low) / range * height;
  }

  /**
   * Where the drawn course is at a time: the value that holds from it on; the middle where that is unknown or only
   * named.
   */
  double level(long time) {
    double value = Double.NaN;
    for (int i = 0; i < track.times().length && track.times()[i] <= time; i++) {
      value = track.values()[i];
    }
    return Double.isNaN(value) || track.shape() == Picture.Shape.NAMES ? top + height / 2 : y(value);
  }

  /** A number: steps on a scale that holds all its values and bounds, with the bounds drawn across. */
  void scaled() {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (double[] numbers : new double[][] {track.values(), track.bounds()}) {
      for (double number : numbers) {
        least = Double.isNaN(number) ? least : Math.min(least, number);
        most = Double.isNaN(number) ? most : Math.max(most, number);
      }
    }
    if (least > most) {
      unknown(axis.left(), axis.right());
      return;
    }
    double room = most > least ? 0.06 * (most - least) : 1;
    for (double bound : track.bounds()) {
      double y = top + height - (bound - least + room) / (most - least + 2 * room) * height;
      svg.lone("line", "class", "bound", "x1", TimingPicture.number(axis.left()), "x2",
          TimingPicture.number(axis.right()),
          "y1", TimingPicture.number(y), "y2", TimingPicture.number(y));
      label(TimingPicture.shown(bound), y, "scale bound");
    }
    steps(least - room, most + room, false);
    extreme(least, least - room, most + room);
    if (most > least) {
      extreme(most, least - room, most + room);
    }
  }

  /** Labels an extreme of the scale unless a bound stands so near that the two would run into each other. */
  private void extreme(double value, double low, double high) {
    double y = top + height - (value - low) / (high - low) * height;
    for (double bound : track.bounds()) {
      if (Math.abs(value - bound) / (high - low) * height < 11) {
        return;
      }
    }
    label(TimingPicture.shown(value), y, "scale");
  }

  private void label(String text, double y, String style) {
    svg.element("text", text, "class", style, "x", TimingPicture.number(axis.right() + 6), "y",
        TimingPicture.number(y + 3.5));
  }

  /** A member of an enumeration: a band per value with its name in it where there is room. */
  void names() {
    unknownBefore();
    for (int i = 0; i < track.times().length; i++) {
      double x = axis.x(track.times()[i]);
      double end = end(i);
      if (Double.isNaN(track.values()[i])) {
        unknown(x, end);
      } else if (end > x) {
        int member = (int) track.values()[i];
        String name = member >= 0 && member < track.names().size() ? track.names().get(member)
            : Integer.toString(member);
        svg.open("rect", "class", "band", "x", TimingPicture.number(x), "y", TimingPicture.number(top), "width",
            TimingPicture.number(end - x), "height", TimingPicture.number(height)).element("title", name).close();
        if (end - x > Math.max(LEAST_LABELLED, name.length() * 7)) {
          svg.element("text", name, "class", "member", "x", TimingPicture.number(x + 5), "y", TimingPicture.number(top
              + height - 5));
        }
      }
    }
  }

  private double end(int i) {
    return i + 1 < track.times().length ? axis.x(track.times()[i + 1]) : axis.right();
  }

  private void unknownBefore() {
    double first = track.times().length == 0 ? axis.right() : axis.x(track.times()[0]);
    unknown(axis.left(), first);
  }

  private void unknown(double x, double end) {
    if (end - x < 0.5) {
      return;
    }
    double middle = top + height / 2;
    svg.lone("line", "class", "unknown", "x1", TimingPicture.number(x), "x2", TimingPicture.number(end), "y1",
        TimingPicture.number(middle), "y2", TimingPicture.number(middle));
    if (end - x > 60) {
      svg.element("text", "unknown", "class", "member faint", "x", TimingPicture.number(x + 5), "y",
          TimingPicture.number(middle + 13));
    }
  }
}
