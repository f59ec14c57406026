package dev.pawl.engine.graph;

import java.util.Arrays;

/** A node with a number in SI base units; NaN while unknown. */
public abstract class NumNode extends Node {

  public double value = Double.NaN;

  private RangeDependency[] rangeDependencies = {};
  /**
   * A change to a value between these means nothing to any dependency. What lies outside may mean nothing either: it is
   * looked at then.
   */
  private double ignoredFrom = Double.NEGATIVE_INFINITY;
  private double ignoredTo = Double.POSITIVE_INFINITY;

  /** Sets the value and says whether that changed it; what is not finite becomes unknown. */
  protected final boolean become(double number) {
    double known = Double.isFinite(number) ? number : Double.NaN;
    double before = value;
    value = known;
    boolean changed = before != known && (before == before || known == known);
    if (changed && !(known >= ignoredFrom && known <= ignoredTo)) {
      rouse();
    }
    return changed;
  }

  final RangeDependency addRangeDependency(Node watcher) {
    RangeDependency added = new RangeDependency(this, watcher);
    rangeDependencies = Arrays.copyOf(rangeDependencies, rangeDependencies.length + 1);
    rangeDependencies[rangeDependencies.length - 1] = added;
    narrow(added.from(), added.to());
    return added;
  }

  /**
   * Whether the value may lag above what it is, or below: it may if all who read it ask for a range only, and ignore
   * any change that way, and nobody else reads it. What comes out for the lagging value comes out for the true one
   * then, and a margin that it would bring it has brought when it was true.
   */
  final boolean mayLag(boolean above) {
    for (RangeDependency dependency : rangeDependencies) {
      if (!dependency.ignoresAll(above)) {
        return false;
      }
    }
    return next == null && rangeDependencies.length > 0;
  }

  /** One of the rangeDependencies minds other changes than before. */
  void rangeChanged(RangeDependency dependency) {}

  final void narrow(double from, double to) {
    ignoredFrom = Math.max(ignoredFrom, from);
    ignoredTo = Math.min(ignoredTo, to);
  }

  /** Has those evaluated to whom the value means something. */
  private void rouse() {
    ignoredFrom = Double.NEGATIVE_INFINITY;
    ignoredTo = Double.POSITIVE_INFINITY;
    for (RangeDependency dependency : rangeDependencies) {
      if (!(value >= dependency.from() && value <= dependency.to())) {
        graph.mark(dependency.watcher);
      }
      narrow(dependency.from(), dependency.to());
    }
  }
}
