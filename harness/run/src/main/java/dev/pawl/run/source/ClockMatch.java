package dev.pawl.run.source;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * How far a clock is ahead of another, told by changes of signals that both have seen.
 *
 * @param ahead nanoseconds
 * @param off nanoseconds by which that may be wrong: as far as any two changes can disagree
 * @param changes how many changes have a partner
 * @param lonely how many have none, though the other was there to see them
 */
record ClockMatch(long ahead, long off, int changes, int lonely) {

  static final int FEWEST = 5;
  /** So many changes of a kind are looked at: what tells a clock is not to cost more than the trace. */
  private static final int MOST = 500;
  private static final long NARROWEST = 1_000_000L;
  private static final long WIDEST = 4_096_000_000L;

  /**
   * The times at which a signal went one way, by either clock, in order.
   *
   * @param ours by the clock that is asked for
   */
  record Seen(long[] ours, long[] theirs) {

    Seen {
      ours = Arrays.copyOf(ours, Math.min(ours.length, MOST));
      theirs = Arrays.copyOf(theirs, Math.min(theirs.length, MOST));
    }
  }

  /**
   * The offset at which nearly all changes that both can have seen lie close together, and which no other offset comes
   * near to; nothing if there is none.
   */
  static Optional<ClockMatch> of(List<Seen> signals) {
    long[] offsets = offsets(signals);
    for (long width = NARROWEST; width <= WIDEST; width *= 2) {
      Dense dense = Dense.in(offsets, 0, offsets.length, width);
      if (dense.count() >= FEWEST) {
        long middle = Math.addExact(dense.first(), width / 2);
        Tally tally = Tally.of(signals, middle, width);
        if (tally.isClear() && 2 * rival(offsets, middle, width) <= tally.pairs) {
          // Those that agree a little less tell how far it may be off.
          Tally wider = Tally.of(signals, middle, 2 * width);
          return Optional.of(new ClockMatch(wider.least + (wider.most - wider.least) / 2, wider.off(), wider.pairs,
              wider.lonely()));
        }
      }
    }
    return Optional.empty();
  }

  /** What the offset could be by any two changes of a kind. */
  private static long[] offsets(List<Seen> signals) {
    long[] offsets = new long[signals.stream().mapToInt(seen -> seen.ours.length * seen.theirs.length).sum()];
    int count = 0;
    for (Seen seen : signals) {
      for (long our : seen.ours) {
        for (long their : seen.theirs) {
          offsets[count++] = our - their;
        }
      }
    }
    Arrays.sort(offsets);
    return offsets;
  }

  /** How many changes agree at best on another offset. */
  private static int rival(long[] offsets, long middle, long width) {
    int below = place(offsets, middle - 2 * width);
    int above = place(offsets, middle + 2 * width);
    return Math.max(Dense.in(offsets, 0, below, width).count(),
        Dense.in(offsets, above, offsets.length, width).count());
  }

  private static int place(long[] sorted, long value) {
    int found = Arrays.binarySearch(sorted, value);
    return found < 0 ? -found - 1 : found;
  }

  /** The stretch of a given width in which most offsets lie. */
  private record Dense(long first, int count) {

    static Dense in(long[] sorted, int from, int to, long width) {
      Dense best = new Dense(0, 0);
      int last = from;
      for (int i = from; i < to; i++) {
        while (last < to && sorted[last] - sorted[i] <= width) {
          last++;
        }
        best = last - i > best.count ? new Dense(sorted[i], last - i) : best;
      }
      return best;
    }
  }

  /** The changes that are partners at an offset, and how many there could be. */
  private static final class Tally {

    private int pairs;
    private int ours;
    private int theirs;
    private long least = Long.MAX_VALUE;
    private long most = Long.MIN_VALUE;

    static Tally of(List<Seen> signals, long middle, long width) {
      Tally tally = new Tally();
      for (Seen seen : signals) {
        tally.pair(seen, middle, width);
      }
      long[] our = signals.stream().flatMapToLong(seen -> Arrays.stream(seen.ours)).map(time -> time - middle).sorted()
          .toArray();
      long[] their = signals.stream().flatMapToLong(seen -> Arrays.stream(seen.theirs)).sorted().toArray();
      long from = Math.max(our[0], their[0]) - width;
      long to = Math.min(our[our.length - 1], their[their.length - 1]) + width;
      tally.ours = place(our, to + 1) - place(our, from);
      tally.theirs = place(their, to + 1) - place(their, from);
      return tally;
    }

    /** Each with the first that is near enough and has no partner yet. */
    private void pair(Seen seen, long middle, long width) {
      int next = 0;
      for (long time : seen.ours) {
        while (next < seen.theirs.length && seen.theirs[next] < time - middle - width) {
          next++;
        }
        if (next < seen.theirs.length && seen.theirs[next] <= time - middle + width) {
          pairs++;
          least = Math.min(least, time - seen.theirs[next]);
          most = Math.max(most, time - seen.theirs[next]);
          next++;
        }
      }
    }

    /** As far as any two disagree, and what the few that there are may not have shown of that. */
    long off() {
      return (most - least) * (pairs + 1) / (pairs - 1);
    }

    int lonely() {
      return ours + theirs - 2 * pairs;
    }

    boolean isClear() {
      return pairs >= FEWEST && 5 * pairs >= 4 * Math.max(ours, theirs);
    }
  }
}
