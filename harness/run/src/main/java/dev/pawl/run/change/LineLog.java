package dev.pawl.run.change;

import dev.pawl.logic.LineWitness;
import dev.pawl.logic.runtime.LineResults;
import java.util.Arrays;

/** What the watched lines of a program came to in one run, scan by scan; kept is where that changes. */
final class LineLog implements LineWitness {

  /** Changes of one line that are kept; after so many nothing more is compared. */
  static final int MOST = 1 << 18;

  private final Course[] courses;
  private long scans;

  LineLog(int lines) {
    courses = new Course[lines];
    Arrays.setAll(courses, line -> new Course());
  }

  @Override
  public void scanned(long time, LineResults lines) {
    for (int line = 0; line < courses.length; line++) {
      courses[line].add(scans, time, lines.ran(line), lines.result(line));
    }
    scans++;
  }

  /** In how many scans a line ran. */
  long ran(int line) {
    return courses[line].ran;
  }

  /**
   * How two runs of a line differ.
   *
   * @param scans in how many scans, as far as they were compared
   * @param first time of the first of them, nanoseconds
   * @param until time up to which they were compared; {@link Long#MAX_VALUE} for to the end
   */
  record Difference(long scans, long first, long until) {}

  /** Compares a line with a line of another run, up to the end of the shorter one. */
  Difference difference(int line, LineLog other, int otherLine) {
    return courses[line].difference(other.courses[otherLine], Math.min(scans, other.scans));
  }

  /** The results of one line: what they are from some scans on. */
  private static final class Course {

    private long[] scan = new long[16];
    private long[] time = new long[16];
    private long[] result = new long[16];
    private int size;
    private long ran;
    private long last;
    private long full = Long.MAX_VALUE;
    private long fullTime = Long.MAX_VALUE;

    /** One that did not run is told from one that gave nothing. */
    void add(long number, long now, boolean runs, long given) {
      ran += runs ? 1 : 0;
      long came = runs ? given ^ 1 : 0;
      if (size > 0 && came == last || full != Long.MAX_VALUE) {
        return;
      }
      if (size == MOST) {
        full = number;
        fullTime = now;
        return;
      }
      if (size == scan.length) {
        scan = Arrays.copyOf(scan, 2 * size);
        time = Arrays.copyOf(time, 2 * size);
        result = Arrays.copyOf(result, 2 * size);
      }
      scan[size] = number;
      time[size] = now;
      result[size++] = came;
      last = came;
    }

    Difference difference(Course other, long scans) {
      long end = Math.min(scans, Math.min(full, other.full));
      long differing = 0;
      long first = Long.MAX_VALUE;
      int i = -1;
      int j = -1;
      long at = 0;
      while (at < end) {
        while (i + 1 < size && scan[i + 1] <= at) {
          i++;
        }
        while (j + 1 < other.size && other.scan[j + 1] <= at) {
          j++;
        }
        long next = Math.min(end, Math.min(next(i), other.next(j)));
        if (result[i] != other.result[j]) {
          first = differing == 0 ? Math.max(time[i], other.time[j]) : first;
          differing += next - at;
        }
        at = next;
      }
      return new Difference(differing, first, Math.min(fullTime, other.fullTime));
    }

    private long next(int index) {
      return index + 1 < size ? scan[index + 1] : Long.MAX_VALUE;
    }
  }
}
