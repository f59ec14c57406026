package dev.pawl.grammar.logic.drawn.network;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;

/** Loops among what is still to be evaluated (Tarjan's strongly connected components, without recursion). */
final class Loops {

  private final int[][] sources;
  private final boolean[] done;
  private final int[] number;
  private final int[] low;
  private final boolean[] held;
  private final Deque<Integer> path = new ArrayDeque<>();
  private int next = 1;

  Loops(int[][] sources, boolean[] done) {
    this.sources = sources;
    this.done = done;
    this.number = new int[sources.length];
    this.low = new int[sources.length];
    this.held = new boolean[sources.length];
  }

  /**
   * The first component that is complete takes from nothing outside of it that is still to come; it is a loop, since
   * every element that is still to come waits for another.
   */
  int[] firstLoop() {
    for (int start = 0; start < sources.length; start++) {
      if (!done[start]) {
        return from(start);
      }
    }
    throw new IllegalStateException("nothing is left");
  }

  private int[] from(int start) {
    Deque<int[]> stack = new ArrayDeque<>();
    open(start, stack);
    while (true) {
      int[] top = stack.peek();
      int node = top[0];
      if (top[1] < sources[node].length) {
        int source = sources[node][top[1]++];
        if (done[source]) {
          continue;
        }
        if (number[source] == 0) {
          open(source, stack);
        } else if (held[source]) {
          low[node] = Math.min(low[node], number[source]);
        }
      } else if (low[node] == number[node]) {
        return component(node);
      } else {
        stack.pop();
        int user = stack.peek()[0];
        low[user] = Math.min(low[user], low[node]);
      }
    }
  }

  private void open(int node, Deque<int[]> stack) {
    number[node] = next;
    low[node] = next++;
    held[node] = true;
    path.push(node);
    stack.push(new int[] {node, 0});
  }

  private int[] component(int root) {
    List<Integer> members = new ArrayList<>();
    int member;
    do {
      member = path.pop();
      members.add(member);
    } while (member != root);
    int[] all = members.stream().mapToInt(Integer::intValue).toArray();
    Arrays.sort(all);
    return all;
  }
}
