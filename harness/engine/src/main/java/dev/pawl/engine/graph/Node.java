package dev.pawl.engine.graph;

import java.util.Arrays;

/** A node of the dataflow graph: a value, or a judge of values, that is evaluated when something it depends on has changed. */
public abstract class Node {

  private static final int[] NOWHERE = {};
  private static final long[] NOBODY = {};

  /** Place in topological order. */
  int index;

  /** Which words of the graph's marks hold the nodes to evaluate when this one changes; those all come after it in the order. */
  int[] words = NOWHERE;

  /** The nodes to evaluate when this one changes: the marks to set in each of {@link #words}. */
  long[] marks = NOBODY;

  /** Those of the nodes that also have to be evaluated when this one, being momentary, has fallen back. */
  long[] mindful = NOBODY;

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
    dependOnRise(input);
    input.mindful[input.place(index >>> 6)] |= 1L << index;
  }

  /** Makes {@code input}'s changes evaluate this node, but for the falling back of a momentary one ({@link BoolNode#isMomentary}). */
  protected final void dependOnRise(Node input) {
    int place = input.place(index >>> 6);
    input.marks[place] |= 1L << index;
  }

  /** Goes on or stops being evaluated by changes of an input on which this node depends. */
  protected final void heed(Node input, boolean on) {
    int place = input.place(index >>> 6);
    long mark = 1L << index;
    input.marks[place] = on ? input.marks[place] | mark : input.marks[place] & ~mark;
  }

  /** The place of a word in {@link #words}, where it is put if it is not there. */
  private int place(int word) {
    int place = 0;
    while (place < words.length && words[place] != word) {
      place++;
    }
    if (place == words.length) {
      words = Arrays.copyOf(words, place + 1);
      marks = Arrays.copyOf(marks, place + 1);
      mindful = Arrays.copyOf(mindful, place + 1);
      words[place] = word;
    }
    return place;
  }

  /** States the inputs whose changes evaluate this node, if any. Called once, after the node has joined its graph. */
  protected void connect() {}
}
