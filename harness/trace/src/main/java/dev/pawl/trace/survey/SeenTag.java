package dev.pawl.trace.survey;

import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.Set;

/** What was seen of one tag: the kind of its values, how often they changed, and how often it was looked at. */
public final class SeenTag {

  private static final int MOST_WORDS = 12;
  private static final int MOST_GAPS = 4096;
  private static final int FEW = 20;

  private final String name;
  private final Set<String> words = new LinkedHashSet<>();
  private final double[] gaps = new double[MOST_GAPS];
  private boolean numeric = true;
  private boolean many;
  private double least = Double.POSITIVE_INFINITY;
  private double most = Double.NEGATIVE_INFINITY;
  private String last = "";
  private double lastTime = Double.NaN;
  private long rows;
  private long changes;

  SeenTag(String name) {
    this.name = name;
  }

  /**
   * Takes a row.
   *
   * @param seconds its time, or NaN where that is not understood
   */
  void take(String value, double seconds) {
    if (value.isEmpty()) {
      return;
    }
    if (rows > 0) {
      gaps[(int) ((rows - 1) % MOST_GAPS)] = seconds - lastTime;
      changes += value.equals(last) ? 0 : 1;
    }
    rows++;
    last = value;
    lastTime = seconds;
    many |= !words.contains(value) && words.size() == MOST_WORDS;
    if (!many) {
      words.add(value);
    }
    try {
      double number = Double.parseDouble(value.replace(',', '.'));
      least = Math.min(least, number);
      most = Math.max(most, number);
    } catch (NumberFormatException e) {
      numeric = false;
    }
  }

  public String name() {
    return name;
  }

  /** Whether the times of its rows are understood. */
  public boolean isTimed() {
    return !Double.isNaN(lastTime);
  }

  public long changes() {
    return changes;
  }

  /** Whether all its values are numbers. */
  public boolean isNumeric() {
    return numeric && rows > 0;
  }

  /** Whether it has two values at most, or one that can be of a pair. */
  public boolean hasTwoValues() {
    return !many && words.size() <= 2 && rows > 0;
  }

  /** Whether there are so many different values that they are no states. */
  public boolean hasMany() {
    return many;
  }

  /** The first different values. */
  public Set<String> words() {
    return words;
  }

  public double least() {
    return least;
  }

  public double most() {
    return most;
  }

  /**
   * The longest usual time from one row to the next in seconds, where its rows come at a nearly fixed period although
   * its value does not change with each; NaN where it is written when it changes.
   */
  public double period() {
    int count = (int) Math.min(rows - 1, MOST_GAPS);
    if (count < FEW || changes * 4 > rows * 3 && !isNumeric()) {
      return Double.NaN;
    }
    double[] sorted = Arrays.copyOf(gaps, count);
    Arrays.sort(sorted);
    double usual = sorted[count / 2];
    double low = sorted[count / 10];
    double high = sorted[count - 1 - count / 10];
    return usual > 0 && low > 0.7 * usual && high < 1.3 * usual ? sorted[count - 1 - count / 100] : Double.NaN;
  }
}
