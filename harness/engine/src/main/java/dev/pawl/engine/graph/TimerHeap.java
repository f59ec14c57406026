package dev.pawl.engine.graph;

import java.util.Arrays;

/**
 * A binary heap of nodes by the moment at which each wants to be woken; one timer per node, which can be moved and
 * dropped.
 *
 * <p>Most timers are dropped or put off before they are due: a response comes, a window moves on. So only a timer that
 * becomes earlier is moved at once. One that becomes later, or is dropped, keeps its place, and is put where it belongs
 * when its turn comes.
 */
final class TimerHeap {

  private static final int ABSENT = -1;

  /** By node: when it wants to be woken, and its place in the heap. */
  private final long[] wanted;
  private final int[] place;
  /** By place: the moment it is kept under, never later than wanted, and the node. */
  private final long[] moment;
  private final int[] heap;
  private int size;
  private long earliest = Moments.FOREVER;

  TimerHeap(int nodes) {
    wanted = new long[nodes];
    place = new int[nodes];
    moment = new long[nodes];
    heap = new int[nodes];
    Arrays.fill(wanted, Moments.FOREVER);
    Arrays.fill(place, ABSENT);
  }

  /** No timer is due before this moment; {@link Moments#FOREVER} where none is set. */
  long earliest() {
    return earliest;
  }

  /** Sets, moves or, with {@link Moments#FOREVER}, drops the timer of a node. */
  void set(int node, long at) {
    wanted[node] = at;
    int from = place[node];
    if (from == ABSENT) {
      if (at != Moments.FOREVER) {
        up(size++, node, at);
      }
    } else if (at < moment[from]) {
      up(from, node, at);
    }
  }

  /**
   * Takes a timer that is due.
   *
   * @param at {@link #earliest}
   * @return its node; negative if none is due at {@code at} any more, and {@link #earliest} then is another
   */
  int poll(long at) {
    while (earliest == at) {
      int node = heap[0];
      long next = wanted[node];
      if (next == at) {
        wanted[node] = Moments.FOREVER;
        removeFirst();
        return node;
      } else if (next == Moments.FOREVER) {
        removeFirst();
      } else {
        down(node, next);
      }
    }
    return ABSENT;
  }

  private void removeFirst() {
    place[heap[0]] = ABSENT;
    size--;
    if (size == 0) {
      earliest = Moments.FOREVER;
    } else {
      down(heap[size], moment[size]);
    }
  }

  /** Puts a node in at a free place, or at a later one's expense higher up. */
  private void up(int from, int node, long at) {
    int hole = from;
    while (hole > 0) {
      int parent = (hole - 1) >>> 1;
      if (moment[parent] <= at) {
        break;
      }
      put(hole, heap[parent], moment[parent]);
      hole = parent;
    }
    put(hole, node, at);
    earliest = moment[0];
  }

  /** Puts a node in at the first place, or at an earlier one's expense lower down. */
  private void down(int node, long at) {
    int hole = 0;
    while (2 * hole + 1 < size) {
      int child = 2 * hole + 1;
      if (child + 1 < size && moment[child + 1] < moment[child]) {
        child++;
      }
      if (moment[child] >= at) {
        break;
      }
      put(hole, heap[child], moment[child]);
      hole = child;
    }
    put(hole, node, at);
    earliest = moment[0];
  }

  private void put(int at, int node, long when) {
    heap[at] = node;
    moment[at] = when;
    place[node] = at;
  }
}
