package dev.pawl.plant.motion;

import java.util.Arrays;

/**
 * A way that a train can take: the main circuit, or the main circuit up to a switch and the siding behind it. Cut into
 * cells, within each of which the slope and what acts there stay the same.
 */
final class Route {

  /** Places closer than this are one place, metres. */
  static final double NEAR = 1e-9;

  private final boolean closed;
  private final double length;
  private final double[] starts;
  private final double[] heights;
  private final double[] slopes;
  private final long[] acting;

  /**
   * Cuts a route into cells.
   *
   * @param length of the circuit, or to the end of the siding
   * @param points places of the height profile, from 0, rising
   * @param pointHeights one for each
   * @param cuts further places where something begins or ends
   * @param stretches what acts where, in route coordinates; those of a closed route may run on past its end
   */
  Route(boolean closed, double length, double[] points, double[] pointHeights, double[] cuts, Span[] stretches) {
    this.closed = closed;
    this.length = length;
    double[] all = Arrays.copyOf(points, points.length + cuts.length + 2 * stretches.length);
    int count = points.length;
    for (double cut : cuts) {
      all[count++] = wrap(cut);
    }
    for (Span stretch : stretches) {
      all[count++] = stretch.isEmpty() ? 0 : wrap(stretch.from());
      all[count++] = stretch.isEmpty() ? 0 : wrap(stretch.to());
    }
    starts = distinct(all);
    heights = new double[starts.length + 1];
    slopes = new double[starts.length];
    acting = new long[starts.length];
    for (int i = 0; i <= starts.length; i++) {
      heights[i] = interpolated(i == starts.length ? length : starts[i], points, pointHeights);
    }
    for (int i = 0; i < starts.length; i++) {
      double end = end(i);
      slopes[i] = (heights[i + 1] - heights[i]) / (end - starts[i]);
      for (int bit = 0; bit < stretches.length; bit++) {
        if (covers(stretches[bit], (starts[i] + end) / 2)) {
          acting[i] |= 1L << bit;
        }
      }
    }
  }

  /** A piece of a route; without length where something is not on it. */
  record Span(double from, double to) {
    boolean isEmpty() {
      return !(to > from);
    }
  }

  private static double[] distinct(double[] all) {
    Arrays.sort(all);
    int kept = 0;
    for (double place : all) {
      if (kept == 0 || place - all[kept - 1] > 2 * NEAR) {
        all[kept++] = place;
      }
    }
    return Arrays.copyOf(all, kept);
  }

  private double interpolated(double place, double[] points, double[] pointHeights) {
    for (int i = 0; i < points.length; i++) {
      double next = i + 1 < points.length ? points[i + 1] : length;
      double nextHeight = i + 1 < points.length ? pointHeights[i + 1] : closed ? pointHeights[0] : pointHeights[i];
      if (place <= next || i + 1 == points.length) {
        return next > points[i] ? pointHeights[i] + (nextHeight - pointHeights[i]) * (place - points[i])
            / (next - points[i]) : pointHeights[i];
      }
    }
    throw new IllegalStateException("a route has points");
  }

  private boolean covers(Span span, double place) {
    return !span.isEmpty() && (place >= span.from() && place < span.to() || closed && place + length < span.to());
  }

  private double end(int cell) {
    return cell + 1 < starts.length ? starts[cell + 1] : length;
  }

  boolean closed() {
    return closed;
  }

  double length() {
    return length;
  }

  /** The place on the route of a distance, which on a closed one may count laps. */
  double wrap(double distance) {
    if (!closed || distance >= 0 && distance < length) {
      return distance;
    }
    double place = distance - Math.floor(distance / length) * length;
    return place < length ? Math.max(0, place) : 0;
  }

  /** The cell at a place, or the one that begins just there when moving on forward, or backward. */
  int cell(double distance, boolean forward) {
    double place = wrap(distance + (forward ? NEAR : -NEAR));
    int found = Arrays.binarySearch(starts, place);
    return found >= 0 ? found : Math.max(0, -found - 2);
  }

  /** Metres from a place to the end of its cell, in the direction of motion. */
  double rest(double distance, int cell, boolean forward) {
    double place = wrap(distance + (forward ? NEAR : -NEAR));
    return forward ? end(cell) - place + NEAR : place - starts[cell] + NEAR;
  }

  double height(double distance, int cell, boolean forward) {
    double place = wrap(distance + (forward ? NEAR : -NEAR));
    return heights[cell] + slopes[cell] * (place - starts[cell] - (forward ? NEAR : -NEAR));
  }

  double slope(int cell) {
    return slopes[cell];
  }

  /** What acts within a cell: a bit each. */
  long acting(int cell) {
    return acting[cell];
  }

  /** What acts anywhere between two cells, as a train lies from tail to nose. */
  long acting(int tail, int nose) {
    long bits = acting[tail];
    for (int cell = tail; cell != nose;) {
      cell = cell + 1 == starts.length ? 0 : cell + 1;
      bits |= acting[cell];
    }
    return bits;
  }

  /** Share, from 0 to 1, of a train that lies in a span. */
  double coverage(Span span, double tail, double nose) {
    double lap = closed ? Math.floor(tail / length) * length : 0;
    double share = overlap(span, tail - lap, nose - lap);
    if (closed) {
      share += overlap(span, tail - lap + length, nose - lap + length) + overlap(span, tail - lap - length,
          nose - lap - length);
    }
    return share / (nose - tail);
  }

  private static double overlap(Span span, double tail, double nose) {
    return Math.max(0, Math.min(nose, span.to()) - Math.max(tail, span.from()));
  }
}
