package dev.pawl.engine.graph;

/**
 * A number that time alone, between changes of what it rests on, makes only less, or only greater: a count over a window, or an extreme. Where that
 * means nothing to anyone it lags behind: it is not evaluated for it, and keeps the value it had until it is evaluated for something else.
 */
public abstract class Subsiding extends NumNode {

  private final boolean falls;
  private boolean lags;

  /** One that time makes less, or one that it makes greater. */
  protected Subsiding(boolean falls) {
    this.falls = falls;
  }

  /** States the moment from which on time will have made it another, if known. To be called at the end of every evaluation. */
  protected final void subsideAt(long next) {
    lags = next != Moments.FOREVER && mayLag(falls);
    graph.wake(this, lags ? Moments.FOREVER : next);
  }

  /** The same for one that is unknown, and at a moment becomes known. */
  protected final void becomeKnownAt(long next) {
    lags = false;
    graph.wake(this, next);
  }

  @Override
  final void lookoutChanged() {
    if (lags && !mayLag(falls)) {
      lags = false;
      graph.wakeAfter(this);
    }
  }
}
