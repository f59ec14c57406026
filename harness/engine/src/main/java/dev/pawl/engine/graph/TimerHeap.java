package dev.pawl.engine.graph;

/** A binary heap of nodes by the moment at which each wants to be woken; one timer per node, which can be moved and dropped. */
final class TimerHeap {

  private static final int ABSENT = -1;

  private final int[] heap;
  private final int[] place;
  private final long[] moment;
  private int size;
  private long earliest = Moments.FOREVER;

  TimerHeap(int nodes) {
    heap = new int[nodes];
    place = new int[nodes];
    moment = new long[nodes];
    java.util.Arrays.fill(place, ABSENT);
  }

  /** The earliest moment, or {@link Moments#FOREVER} where no timer is set. */
  long earliest() {
    return earliest;
  }

  /** Removes the earliest timer and returns its node. */
  int poll() {
    int node = heap[0];
    remove(node);
    return node;
  }

  void set(int node, long at) {
    move(node, at);
    earliest = moment[heap[0]];
  }

  private void move(int node, long at) {
    int from = place[node];
    if (from == ABSENT) {
      moment[node] = at;
      heap[size] = node;
      place[node] = size;
      up(size++);
    } else if (moment[node] != at) {
      boolean sooner = at < moment[node];
      moment[node] = at;
      if (sooner) {
        up(from);
      } else {
        down(from);
      }
    }
  }

  void remove(int node) {
    if (place[node] != ABSENT) {
      takeOut(node);
      earliest = size == 0 ? Moments.FOREVER : moment[heap[0]];
    }
  }

  private void takeOut(int node) {
    int hole = place[node];
    place[node] = ABSENT;
    int last = heap[--size];
    if (last != node) {
      heap[hole] = last;
      place[last] = hole;
      up(hole);
      down(place[last]);
    }
  }

  private void up(int from) {
    int node = heap[from];
    int hole = from;
    while (hole > 0) {
      int parent = (hole - 1) >>> 1;
      if (moment[heap[parent]] <= moment[node]) {
        break;
      }
      put(hole, heap[parent]);
      hole = parent;
    }
    put(hole, node);
  }

  private void down(int from) {
    int node = heap[from];
    int hole = from;
    while (2 * hole + 1 < size) {
      int child = 2 * hole + 1;
      if (child + 1 < size && moment[heap[child + 1]] < moment[heap[child]]) {
        child++;
      }
      if (moment[heap[child]] >= moment[node]) {
        break;
      }
      put(hole, heap[child]);
      hole = child;
    }
    put(hole, node);
  }

  private void put(int at, int node) {
    heap[at] = node;
    place[node] = at;
  }
}
