package dev.pawl.grammar.logic.drawn.network;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Loops among what is still to be evaluated (Tarjan's strongly connected components, without recursion). */
final class Loops {

  private final List<List<Integer>> sources;
  private final boolean[] done;
  private final int[] number;
  private final int[] low;
  private final boolean[] held;
  private final Deque<Integer> path = new ArrayDeque<>();
  private final List<Integer> found = new ArrayList<>();
  private int next = 1;

  Loops(List<List<Integer>> sources, boolean[] done) {
    this.sources = sources;
    this.done = done;
    this.number = new int[done.length];
    this.low = new int[done.length];
    this.held = new boolean[done.length];
  }

  /** Members of all loops into which nothing leads that is still to come. */
  List<Integer> first() {
    for (int start = 0; start < done.length; start++) {
      if (!done[start] && number[start] == 0) {
        from(start);
      }
    }
    return found;
  }

  private void from(int start) {
    Deque<int[]> stack = new ArrayDeque<>();
    open(start, stack);
    while (!stack.isEmpty()) {
      int[] top = stack.peek();
      int node = top[0];
      if (top[1] < sources.get(node).size()) {
        int source = sources.get(node).get(top[1]++);
        if (!done[source] && number[source] == 0) {
          open(source, stack);
        } else if (!done[source] && held[source]) {
          low[node] = Math.min(low[node], number[source]);
        }
        continue;
      }
      if (low[node] == number[node]) {
        close(node);
      }
      stack.pop();
      if (!stack.isEmpty()) {
        low[stack.peek()[0]] = Math.min(low[stack.peek()[0]], low[node]);
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

  private void close(int root) {
    Set<Integer> members = new HashSet<>();
    int member;
    do {
      member = path.pop();
      held[member] = false;
      members.add(member);
    } while (member != root);
    boolean fed = members.stream().anyMatch(each -> sources.get(each).stream()
        .anyMatch(source -> !done[source] && !members.contains(source)));
    if (!fed) {
      found.addAll(members);
    }
  }
}
