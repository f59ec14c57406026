package dev.pawl.engine.graph;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The nodes in topological order, and what is due. A mark is a bit; evaluating takes the lowest marked node first, so
 * that every node is evaluated once per moment, after everything it depends on. Nothing here allocates after
 * {@link #seal}.
 */
public final class Graph {

  private final List<Node> building = new ArrayList<>();
  private Node[] nodes = {};
  private long[] marked = {};
  private long[] wokenNext = {};
  private BoolNode[] raised = {};
  private int raisedCount;
  private long nextMoment = Moments.FOREVER;
  private TimerHeap timers;
  private long start;
  /** The moment that events bear, or that is being evaluated. */
  private long present;
  /** Before this moment there is nothing to evaluate; {@link Moments#NEVER} as long as the trace has not begun. */
  private long due;

  /** Adds a node whose inputs have all been added before. */
  public <N extends Node> N add(N node) {
    node.join(this, building.size());
    building.add(node);
    node.connect();
    return node;
  }

  /** Ends the building; every node is marked, to be evaluated at the start. */
  public void seal() {
    nodes = building.toArray(Node[]::new);
    marked = new long[(nodes.length + 63) >>> 6];
    wokenNext = new long[marked.length];
    raised = new BoolNode[nodes.length];
    timers = new TimerHeap(nodes.length);
    for (Node node : nodes) {
      mark(node.index);
    }
    due = Moments.NEVER;
  }

  /** The moment that events bear, or that is being evaluated. */
  long present() {
    return present;
  }

  /** First moment of the trace. */
  public long start() {
    return start;
  }

  /**
   * Goes on to a moment, or starts there: all that is due before it is evaluated. What is marked from now on is marked
   * for that moment.
   */
  public void advanceTo(long moment) {
    if (isDueBefore(moment)) {
      catchUp(moment);
    }
    present = moment;
  }

  private void catchUp(long moment) {
    if (due == Moments.NEVER) {
      start = moment;
      due = moment;
    } else {
      runBefore(moment);
    }
  }

  /** Has a node evaluated at the coming evaluation. */
  public void mark(Node node) {
    mark(node.index);
  }

  /** Has what depends on a node evaluated at the coming evaluation, the node itself being up to date. */
  public void markDependents(Node changed) {
    for (Node.Word next = changed.next; next != null; next = next.more) {
      mark(next, next.marks);
    }
  }

  /**
   * The same for a signal that turned, or may have: of what depends on its turns, only what depends on such a one is
   * evaluated.
   */
  public void markTurned(Node signal, boolean mayRise, boolean mayFall) {
    for (Node.Word next = signal.next; next != null; next = next.more) {
      mark(next, next.marks | (mayRise ? next.onRise : 0) | (mayFall ? next.onFall : 0));
    }
  }

  private void mark(Node.Word word, long marks) {
    if (marks != 0) {
      marked[word.index] |= marks;
      due = present;
    }
  }

  private void mark(int index) {
    marked[index >>> 6] |= 1L << index;
    due = present;
  }

  /** Has a node evaluated at {@code at}, if nothing does so before; replaces what it asked before. */
  public void wake(Node node, long at) {
    timers.set(node.index, at);
    due = Math.min(due, at);
  }

  /** Has a node evaluated at the moment right after the one being evaluated. */
  public void wakeAfter(Node node) {
    wokenNext[node.index >>> 6] |= 1L << node.index;
    comeBack();
  }

  private void comeBack() {
    nextMoment = present + 1;
    due = Math.min(due, nextMoment);
  }

  /**
   * Has a momentary node, which has become true, fall back before anything is evaluated at a later moment. Only nodes
   * that mind are evaluated for it, at the moment right after; that spares most of them, since what counts events does
   * not care when they are over.
   */
  public void raise(BoolNode node) {
    raised[raisedCount++] = node;
    for (Node.Word next = node.next; next != null; next = next.more) {
      wakeAfter(next, next.marks & next.mindful);
    }
  }

  private void wakeAfter(Node.Word word, long marks) {
    if (marks != 0) {
      wokenNext[word.index] |= marks;
      comeBack();
    }
  }

  private void lower() {
    while (raisedCount > 0) {
      raised[--raisedCount].fallBack();
    }
  }

  /** Whether anything is to be evaluated before {@code limit}. */
  boolean isDueBefore(long limit) {
    return due < limit;
  }

  /** Evaluates all that is due before {@code limit}, moment by moment. */
  public void runBefore(long limit) {
    while (isDueBefore(limit)) {
      evaluate(due);
    }
  }

  /** Evaluates what is marked or due at {@code moment}; nothing may be due before it. */
  public void evaluate(long moment) {
    present = moment;
    lower();
    if (nextMoment == moment) {
      takeWoken();
    }
    if (timers.earliest() == moment) {
      markDue(moment);
    }
    settle(moment);
    due = Math.min(nextMoment, timers.earliest());
  }

  private void markDue(long moment) {
    for (int node = timers.poll(moment); node >= 0; node = timers.poll(moment)) {
      mark(node);
    }
  }

  private void takeWoken() {
    nextMoment = Moments.FOREVER;
    for (int word = 0; word < wokenNext.length; word++) {
      marked[word] |= wokenNext[word];
    }
    Arrays.fill(wokenNext, 0);
  }

  private void settle(long moment) {
    long[] marks = marked;
    for (int word = 0; word < marks.length; word++) {
      for (long bits = marks[word]; bits != 0; bits = marks[word]) {
        marks[word] = bits & (bits - 1);
        Node node = nodes[(word << 6) + Long.numberOfTrailingZeros(bits)];
        if (node.update(moment)) {
          spread(node);
        }
      }
    }
  }

  private void spread(Node changed) {
    for (Node.Word next = changed.next; next != null; next = next.more) {
      marked[next.index] |= next.marks;
    }
  }
}
