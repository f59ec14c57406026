package dev.pawl.engine.graph;

/**
 * A node of the dataflow graph: a value, or a judge of values, that is evaluated when something it depends on has
 * changed.
 */
public abstract class Node {

  /** Place in topological order. */
  int index;

  /** The nodes to evaluate when this one changes; null for none. */
  Word next;

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
    input.word(index >>> 6).mindful |= 1L << index;
  }

  /**
   * Makes {@code input}'s changes evaluate this node, but for the falling back of a momentary one
   * ({@link BoolNode#isMomentary}).
   */
  protected final void dependOnRise(Node input) {
    input.word(index >>> 6).marks |= 1L << index;
  }

  /** Makes the happening of an event evaluate this node, and whatever makes it unknown whether it happens. */
  protected final void dependOn(Event event) {
    Node source = event.source();
    if (event.isTurn()) {
      Word word = source.word(index >>> 6);
      word.onRise |= event.kind() == Event.Kind.SIGNAL_RISES ? 1L << index : 0;
      word.onFall |= event.kind() == Event.Kind.SIGNAL_FALLS ? 1L << index : 0;
    } else {
      dependOnRise(source);
      dependOnRise(event.begun());
    }
  }

  /** Has the node evaluated at the moment right after the one being evaluated. */
  public final void comeBack() {
    graph.wakeAfter(this);
  }

  /** Makes those of a number's changes evaluate this node that it will say it minds. */
  protected final RangeDependency dependOnRange(NumNode number) {
    return number.addRangeDependency(this);
  }

  /** Goes on or stops being evaluated by changes of an input on which this node depends. */
  protected final void heed(Node input, boolean on) {
    Word word = input.word(index >>> 6);
    long mark = 1L << index;
    word.marks = on ? word.marks | mark : word.marks & ~mark;
  }

  /** The nodes of one word of the graph's marks that are to be evaluated when this one changes. */
  private Word word(int wanted) {
    Word word = next;
    while (word != null && word.index != wanted) {
      word = word.more;
    }
    if (word == null) {
      word = new Word(wanted, next);
      next = word;
    }
    return word;
  }

  /** States the inputs whose changes evaluate this node, if any. Called once, after the node has joined its graph. */
  protected void connect() {}

  /** Nodes that share a word of the graph's marks; they all come later in the order. */
  static final class Word {

    /** Which of the words. */
    final int index;

    /** The nodes to evaluate, one bit each. */
    long marks;

    /** Those that also have to be evaluated when the node before them, being momentary, has fallen back. */
    long mindful;

    /** Further ones for when the node before them, being a signal, turns from false to true. */
    long onRise;

    /** Further ones for when the node before them, being a signal, turns from true to false. */
    long onFall;

    final Word more;

    private Word(int index, Word more) {
      this.index = index;
      this.more = more;
    }
  }
}
