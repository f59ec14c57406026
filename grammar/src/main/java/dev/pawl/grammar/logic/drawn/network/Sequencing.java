package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Pins;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;

/**
 * The order in which the elements of one network are evaluated: none before what it takes its values from, and of
 * those that could be next the topmost, of these the leftmost. In a loop the leftmost element comes first, and takes
 * what came last time. Numbers of execution, where they are drawn, go before all that.
 */
final class Sequencing {

  private static final Comparator<Element> BY_PLACE = Comparator.comparingDouble((Element e) -> e.head().y())
      .thenComparingDouble(e -> e.head().x());

  private final List<Element> elements;
  private final List<List<Integer>> sources = new ArrayList<>();
  private final List<List<Integer>> users = new ArrayList<>();

  private Sequencing(List<Element> elements) {
    this.elements = elements;
    Map<Long, Integer> index = new HashMap<>();
    for (int i = 0; i < elements.size(); i++) {
      index.put(elements.get(i).head().id(), i);
      sources.add(new ArrayList<>());
      users.add(new ArrayList<>());
    }
    for (int i = 0; i < elements.size(); i++) {
      for (Pin pin : Pins.in(elements.get(i))) {
        for (Link link : pin.links()) {
          connect(index.get(link.from()), i);
        }
      }
    }
  }

  /** Notes once that an element takes from another of this network; all that a user takes is noted together. */
  private void connect(Integer source, int user) {
    if (source == null) {
      return;
    }
    List<Integer> noted = users.get(source);
    if (noted.isEmpty() || noted.get(noted.size() - 1) != user) {
      noted.add(user);
      sources.get(user).add(source);
    }
  }

  /** By data flow and place. */
  static List<Element> byFlow(List<Element> elements) {
    List<Element> placed = new ArrayList<>(elements);
    placed.sort(BY_PLACE);
    return new Sequencing(placed).flow();
  }

  /**
   * By the numbers of execution; what has none comes just before the first that needs it, or at once if it only
   * takes.
   */
  static List<Element> byNumber(List<Element> elements) {
    List<Element> placed = new ArrayList<>(elements);
    placed.sort(BY_PLACE);
    return new Sequencing(placed).numbers();
  }

  private List<Element> flow() {
    int[] waiting = new int[elements.size()];
    boolean[] done = new boolean[elements.size()];
    PriorityQueue<Integer> ready = new PriorityQueue<>();
    for (int i = 0; i < waiting.length; i++) {
      waiting[i] = sources.get(i).size();
      if (waiting[i] == 0) {
        ready.add(i);
      }
    }
    List<Element> order = new ArrayList<>();
    while (order.size() < elements.size()) {
      if (ready.isEmpty()) {
        ready.add(firstOfLoop(done));
      }
      int next = ready.poll();
      if (done[next]) {
        continue;
      }
      done[next] = true;
      order.add(elements.get(next));
      for (int user : users.get(next)) {
        if (--waiting[user] == 0 && !done[user]) {
          ready.add(user);
        }
      }
    }
    return order;
  }

  /** Of all elements in loops into which nothing leads that is still to come the leftmost, of these the topmost. */
  private int firstOfLoop(boolean[] done) {
    return new Loops(sources, done).first().stream().min(Comparator.comparingDouble((Integer it) ->
        elements.get(it).head().x()).thenComparingInt(it -> it)).orElseThrow();
  }

  private List<Element> numbers() {
    List<Integer> numbered = new ArrayList<>();
    for (int i = 0; i < elements.size(); i++) {
      if (elements.get(i).head().order().isPresent()) {
        numbered.add(i);
      }
    }
    numbered.sort(Comparator.comparingLong(i -> elements.get(i).head().order().get()));
    boolean[] done = new boolean[elements.size()];
    List<Element> order = new ArrayList<>();
    for (int next : numbered) {
      need(next, done, order);
      for (int user : users.get(next)) {
        settle(user, done, order);
      }
    }
    List<Element> rest = new ArrayList<>();
    for (int i = 0; i < elements.size(); i++) {
      if (!done[i]) {
        rest.add(elements.get(i));
      }
    }
    order.addAll(byFlow(rest));
    return order;
  }

  /** Puts an element behind all without a number that it takes from. */
  private void need(int wanted, boolean[] done, List<Element> order) {
    Deque<int[]> stack = new ArrayDeque<>();
    boolean[] begun = new boolean[done.length];
    stack.push(new int[] {wanted, 0});
    begun[wanted] = true;
    while (!stack.isEmpty()) {
      int[] top = stack.peek();
      if (top[1] < sources.get(top[0]).size()) {
        int source = sources.get(top[0]).get(top[1]++);
        if (!done[source] && !begun[source] && elements.get(source).head().order().isEmpty()) {
          begun[source] = true;
          stack.push(new int[] {source, 0});
        }
      } else {
        stack.pop();
        if (!done[top[0]]) {
          done[top[0]] = true;
          order.add(elements.get(top[0]));
        }
      }
    }
  }

  /** Puts what nothing takes from behind its last source, if it has no number of its own. */
  private void settle(int index, boolean[] done, List<Element> order) {
    boolean last = users.get(index).isEmpty() && elements.get(index).head().order().isEmpty();
    boolean fed = sources.get(index).stream().allMatch(source -> done[source]
        || elements.get(source).head().order().isEmpty());
    if (!done[index] && last && fed) {
      need(index, done, order);
    }
  }
}
