package dev.pawl.fleet.table;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * A straight line through points, of which some may lie anywhere: the median of the slopes between every two of them
 * (Theil 1950), with an interval by the variance of Kendall's score, ties allowed for (Sen 1968; both from memory, and
 * compared in tests with {@code scipy.stats.theilslopes}).
 *
 * @param slope by how much y changes with one of x
 * @param low lower end of the interval in which the slope lies
 * @param high upper end of it
 * @param middle y at the median of x, by the medians of both
 * @param at the median of x
 */
public record Trend(double slope, double low, double high, double middle, double at) {

  /** Points beyond this number are put together, neighbours by neighbours: pairs grow by the square. */
  static final int MOST = 600;

  /**
   * The line through points; empty where all have one x.
   *
   * @param x in ascending order
   * @param z how many standard deviations the interval goes to each side, such as 1.96 for 95 %
   */
  public static Optional<Trend> of(double[] x, double[] y, double z) {
    if (x.length > MOST) {
      int block = (x.length + MOST - 1) / MOST;
      return of(medians(x, block), medians(y, block), z);
    }
    double[] slopes = new double[x.length * (x.length - 1) / 2];
    int count = 0;
    for (int i = 0; i < x.length; i++) {
      for (int j = i + 1; j < x.length; j++) {
        if (x[j] > x[i]) {
          slopes[count++] = (y[j] - y[i]) / (x[j] - x[i]);
        }
      }
    }
    if (count == 0) {
      return Optional.empty();
    }
    double[] sorted = Arrays.copyOf(slopes, count);
    Arrays.sort(sorted);
    double deviation = Math.sqrt(Math.max(0, (term(x.length) - ties(x) - ties(y)) / 18));
    int high = (int) Math.min(count - 1, Math.rint((count + z * deviation) / 2));
    int low = (int) Math.max(0, Math.rint((count - z * deviation) / 2) - 1);
    return Optional.of(new Trend(sortedMedian(sorted), sorted[low], sorted[high], median(y), median(x)));
  }

  private static double term(double n) {
    return n * (n - 1) * (2 * n + 5);
  }

  private static double ties(double[] values) {
    Map<Double, Integer> counts = new HashMap<>();
    for (double value : values) {
      counts.merge(value, 1, Integer::sum);
    }
    return counts.values().stream().filter(count -> count > 1).mapToDouble(Trend::term).sum();
  }

  private static double[] medians(double[] values, int block) {
    double[] medians = new double[(values.length + block - 1) / block];
    for (int i = 0; i < medians.length; i++) {
      medians[i] = median(Arrays.copyOfRange(values, i * block, Math.min(values.length, (i + 1) * block)));
    }
    return medians;
  }

  /** The median of some values, which stay in their order. */
  static double median(double... values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sortedMedian(sorted);
  }

  private static double sortedMedian(double... sorted) {
    int middle = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
  }
}
