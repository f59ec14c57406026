package dev.pawl.engine.graph;

/**
 * A node's dependence on a number of which it minds only some changes: those to a value outside a range that the node itself states, and to
 * unknown. It minds all of them until it says otherwise.
 */
public final class Lookout {

  private final NumNode number;
  final Node watcher;
  private double from = Double.POSITIVE_INFINITY;
  private double to = Double.NEGATIVE_INFINITY;

  Lookout(NumNode number, Node watcher) {
    this.number = number;
    this.watcher = watcher;
  }

  /** From now on changes to a value from {@code least} to {@code most} mean nothing to the node. To be called while the number has such a value. */
  public void ignore(double least, double most) {
    from = least;
    to = most;
    number.narrow(least, most);
  }

  /** From now on every change means something. */
  public void mindAll() {
    ignore(Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY);
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
