package dev.pawl.engine.graph;

/**
 * A node's dependence on a number of which it minds only some changes: those to a value outside a range that the node
 * itself states, and to unknown. It minds all of them until it says otherwise.
 */
public final class RangeDependency {

  private final NumNode number;
  final Node watcher;
  private double from = Double.POSITIVE_INFINITY;
  private double to = Double.NEGATIVE_INFINITY;

  RangeDependency(NumNode number, Node watcher) {
    this.number = number;
    this.watcher = watcher;
  }

  /**
   * From now on changes to a value from {@code least} to {@code most} mean nothing to the node. To be called while the
   * number has such a value. Where one of the two is infinite, the number may lag on the way there.
   */
  public void ignore(double least, double most) {
    from = least;
    to = most;
    number.narrow(least, most);
    number.rangeChanged(this);
  }

  /** From now on every change means something. */
  public void mindAll() {
    ignore(Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY);
  }

  /** From now on no change means anything; but the value has to be right, since the node may come to read it. */
  public void ignoreAll() {
    ignore(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
  }

  /** Whether all changes downwards, or upwards, mean nothing, but not all changes. */
  boolean ignoresAll(boolean downwards) {
    boolean ignoresFalls = from == Double.NEGATIVE_INFINITY;
    boolean ignoresRises = to == Double.POSITIVE_INFINITY;
    return ignoresFalls != ignoresRises && ignoresFalls == downwards;
  }

  /** Up to where from below changes mean something. */
  double from() {
    return from;
  }

  /** From where upwards changes mean something. */
  double to() {
    return to;
  }
}
