package dev.pawl.trace.sampling;

/**
 * The rows of one signal, and whether they come at a nearly fixed period from first to last. What is kept of the gaps
 * between them is how many there were of about each length, apart those before a row that repeats the value, and those
 * before one that changes it.
 */
final class Rhythm {

  private static final int BUCKETS = 256;
  private static final int FEW = 20;
  /** Of a signal with a few values so many gaps are enough, since most of its rows have to repeat its value. */
  private static final int FEW_OF_REPEATED = 7;
  private static final long NEVER = Long.MIN_VALUE;

  private final boolean continuous;
  private final int[] repeats = new int[BUCKETS];
  private final int[] changes = new int[BUCKETS];
  private final long[] longest = new long[BUCKETS];
  private long last = NEVER;
  private long value;

  /** Of a number, which may be another at every look, or of a signal with a few values. */
  Rhythm(boolean continuous) {
    this.continuous = continuous;
  }

  void row(long time, long now) {
    if (time != last) {
      if (last != NEVER) {
        long gap = time - last;
        int bucket = bucket(gap);
        longest[bucket] = Math.max(longest[bucket], gap);
        if (now == value) {
          repeats[bucket]++;
        } else {
          changes[bucket]++;
        }
      }
      last = time;
    }
    value = now;
  }

  /** Four lengths for each power of two. */
  private static int bucket(long gap) {
    int power = Long.SIZE - 1 - Long.numberOfLeadingZeros(gap);
    return power < 2 ? power << 2 : power << 2 | (int) (gap >>> power - 2) & 3;
  }

  /**
   * The longest gap between two looks, nanoseconds; 0 if the signal was logged when it changed, or shows too little.
   */
  long period() {
    long repeated = sum(repeats, 0, BUCKETS - 1);
    long changed = sum(changes, 0, BUCKETS - 1);
    long gaps = repeated + changed;
    if (gaps < (continuous ? FEW : FEW_OF_REPEATED) || !continuous && repeated < changed) {
      return 0;
    }
    long typical = longest[middle(gaps)];
    int shortest = bucket(Math.max(typical / 3, 1));
    int holes = bucket(2 * typical) + 1;
    long rare = gaps / FEW;
    long silent = sum(repeats, holes, BUCKETS - 1) + sum(changes, holes, BUCKETS - 1);
    long hasty = sum(repeats, 0, shortest - 1) + sum(changes, 0, shortest - 1);
    boolean mayBeMovement = repeated < rare;
    boolean steady = mayBeMovement ? silent + hasty == 0 : silent <= rare && hasty <= rare;
    return steady && changesKeepTime(repeated, changed, holes) ? longestBefore(holes) : 0;
  }

  /**
   * A row that is logged because of a change comes out of step with those that are logged from time to time. It cuts a
   * gap in two, so that each change takes one of the repeats out of step as well: these are left out, of many changes a
   * quarter at each end.
   */
  private boolean changesKeepTime(long repeated, long changed, int holes) {
    if (repeated < FEW) {
      return true;
    }
    long cut = Math.min(changed, repeated / 4);
    int from = quantile(cut) - 1;
    int to = Math.min(quantile(repeated - 1 - cut) + 1, holes - 1);
    return 4 * (changed - sum(changes, Math.max(from, 0), to) - sum(changes, holes, BUCKETS - 1)) <= changed;
  }

  private int quantile(long rank) {
    long seen = 0;
    for (int bucket = 0; bucket < BUCKETS; bucket++) {
      seen += repeats[bucket];
      if (seen > rank) {
        return bucket;
      }
    }
    return BUCKETS - 1;
  }

  private int middle(long gaps) {
    long seen = 0;
    int bucket = -1;
    while (2 * seen < gaps) {
      bucket++;
      seen += repeats[bucket] + changes[bucket];
    }
    return bucket;
  }

  private long longestBefore(int holes) {
    long most = 0;
    for (int bucket = 0; bucket < holes; bucket++) {
      most = Math.max(most, longest[bucket]);
    }
    return most;
  }

  private static long sum(int[] counts, int from, int to) {
    long sum = 0;
    for (int bucket = from; bucket <= Math.min(to, BUCKETS - 1); bucket++) {
      sum += counts[bucket];
    }
    return sum;
  }
}
