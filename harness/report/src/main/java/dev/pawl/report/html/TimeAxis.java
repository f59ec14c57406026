package dev.pawl.report.html;

import dev.pawl.report.words.TimeText;
import java.util.ArrayList;
import java.util.List;

/** From times to places across a picture, with ticks at round distances from an origin. */
final class TimeAxis {

  private static final int FEWEST_TICKS = 4;

  private final long from;
  private final long to;
  private final double left;
  private final double width;

  TimeAxis(long from, long to, double left, double width) {
    this.from = from;
    this.to = to;
    this.left = left;
    this.width = width;
  }

  /** The place of a time, kept inside the picture. */
  double x(long time) {
    double share = (double) (Math.max(from, Math.min(to, time)) - from) / (to - from);
    return left + share * width;
  }

  boolean holds(long time) {
    return time >= from && time <= to;
  }

  double left() {
    return left;
  }

  double right() {
    return left + width;
  }

  /** Times at round distances from the origin: 1, 2 or 5 times a power of ten nanoseconds, or whole minutes. */
  List<Long> ticks(long origin) {
    long step = step();
    List<Long> ticks = new ArrayList<>();
    for (long k = Math.floorDiv(from - origin + step - 1, step); origin + k * step <= to; k++) {
      ticks.add(origin + k * step);
    }
    return ticks;
  }

  private long step() {
    long step = 1;
    int[] growth = {2, 5, 10};
    for (long decade = 1; ; decade *= 10) {
      for (int factor : growth) {
        long next = decade * factor;
        if ((to - from) / next < FEWEST_TICKS) {
          return step;
        }
        step = next;
      }
    }
  }

  /** What stands under a tick. */
  static String label(long time, long origin) {
    long distance = time - origin;
    return (distance > 0 ? "+" : distance < 0 ? "\u2212" : "") + TimeText.duration(Math.abs(distance));
  }
}
