package dev.pawl.mqtt.time;

/**
 * Durations by their frequency, in constant memory: exact below 64 ns, then 32 classes per doubling, so that a quantile
 * is overstated by at most 1/32. Count and extremes are exact.
 */
public final class Distribution {

  private static final int SUB_BITS = 5;
  private static final int SUB = 1 << SUB_BITS;

  private final long[] classes = new long[(Long.SIZE - SUB_BITS) * SUB];
  private long count;
  private long greatest;

  /** Adds one duration in nanoseconds; one below zero counts as zero. */
  public void add(long nanoseconds) {
    long value = Math.max(0, nanoseconds);
    classes[classOf(value)]++;
    count++;
    greatest = Math.max(greatest, value);
  }

  private static int classOf(long value) {
    if (value < 2 * SUB) {
      return (int) value;
    }
    int shift = Long.SIZE - Long.numberOfLeadingZeros(value) - SUB_BITS - 1;
    return shift * SUB + (int) (value >> shift);
  }

  private static long upperEnd(int place) {
    if (place < 2 * SUB) {
      return place;
    }
    int shift = place / SUB - 1;
    return ((place - (long) shift * SUB + 1) << shift) - 1;
  }

  public long greatest() {
    return greatest;
  }

  /**
   * The smallest duration that at least the given share of all is no longer than, overstated by at most 1/32.
   *
   * @param share from 0 to 1
   * @return nanoseconds; 0 where there are none
   */
  public long quantile(double share) {
    long wanted = Math.max(1, (long) Math.ceil(share * count));
    long seen = 0;
    for (int i = 0; i < classes.length; i++) {
      seen += classes[i];
      if (seen >= wanted) {
        return Math.min(greatest, upperEnd(i));
      }
    }
    return 0;
  }
}
