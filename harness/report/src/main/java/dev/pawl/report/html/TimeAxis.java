package dev.pawl.report.html;

import dev.pawl.report.words.TimeText;
import java.util.ArrayList;
import java.util.List;

/** From times to places across a picture, with ticks at round distances from an origin. */
final class TimeAxis {

  private static final int FEWEST_TICKS = 4;
  private static final long SECOND = 1_000_000_000L;
  private static final long MINUTE = 60 * SECOND;
  private static final long DAY = 24 * 60 * MINUTE;
  private static final int[] CLOCK_STEPS = {1, 2, 5, 10, 20, 30, 60, 120, 360, 720};

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

  /**
   * Times at round distances from the origin: 1, 2 or 5 times a power of ten nanoseconds, or from a minute on whole
   * minutes or hours.
   */
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
          return step < MINUTE ? step : minutes(step);
        }
        step = next;
      }
    }
  }

  /** The step of a clock, in minutes, hours or days, that is nearest by ratio. */
  private static long minutes(long step) {
    if (step > DAY) {
      return (step + DAY / 2) / DAY * DAY;
    }
    long nearest = DAY;
    for (long minutes : CLOCK_STEPS) {
      if (ratio(minutes * MINUTE, step) < ratio(nearest, step)) {
        nearest = minutes * MINUTE;
      }
    }
    return nearest;
  }

  private static double ratio(long one, long other) {
    return (double) Math.max(one, other) / Math.min(one, other);
  }

  /** What stands under a tick: seconds on an axis of seconds, also where they make minutes. */
  String label(long time, long origin) {
    long distance = Math.abs(time - origin);
    String size = step() < MINUTE && distance >= MINUTE ? distance / SECOND + " s" : TimeText.duration(distance);
    return (time > origin ? "+" : time < origin ? "\u2212" : "") + size;
  }
}
