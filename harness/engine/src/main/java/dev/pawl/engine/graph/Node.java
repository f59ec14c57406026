package dev.pawl.engine.graph;

/** A node of the dataflow graph: a value, or a judge of values, that is evaluated when something it depends on has changed. */
public abstract class Node {

  private static final int[] NONE = {};

  /** Place in topological order. */
  int index;

  /** Places of the nodes to evaluate when this one changes; all greater than {@code index}. */
  int[] successors = NONE;

  protected Graph graph;

  /**
   * Evaluates the node at a moment, all nodes before it in topological order being up to date.
   *
   * @return whether its value is now another
   */
  public abstract boolean update(long moment);

  /** Called once, when the node joins its graph. */
  final void join(Graph joined, int place) {
    graph = joined;
    index = place;
  }

  /** Makes {@code input}'s changes evaluate this node. */
  protected final void dependOn(Node input) {
    int count = input.successors.length;
    for (int successor : input.successors) {
      if (successor == index) {
        return;
      }
    }
    int[] grown = java.util.Arrays.copyOf(input.successors, count + 1);
    grown[count] = index;
    input.successors = grown;
  }

  /** The inputs whose changes evaluate this node. Called once, after the node has joined its graph. */
  protected abstract void connect();
}
