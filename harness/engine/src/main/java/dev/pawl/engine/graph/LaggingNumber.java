package dev.pawl.engine.graph;

/**
 * A number that time alone, between changes of what it rests on, makes only less, or only greater: a count over a
 * window, or an extreme. Where that means nothing to anyone it lags behind: it is not evaluated for it, and keeps the
 * value it had until it is evaluated for something else.
 */
public abstract class LaggingNumber extends NumNode {

  private final boolean falls;
  private boolean lags;

  /** One that time makes less, or one that it makes greater. */
  protected LaggingNumber(boolean falls) {
    this.falls = falls;
  }

  /**
   * Sets the value, and says whether that changed it, as {@link #become(double)}; from {@code next} on time will have
   * made it another, or known.
   */
  protected final boolean become(double number, long next) {
    boolean changed = become(number);
    lags = number == number && next != Moments.FOREVER && mayLag(falls);
    graph.wake(this, lags ? Moments.FOREVER : next);
    return changed;
  }

  @Override
  final void rangeChanged(RangeDependency dependency) {
    if (lags && !dependency.ignoresAll(falls)) {
      lags = false;
      comeBack();
    }
  }
}
