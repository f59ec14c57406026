package dev.pawl.engine.graph;

import dev.pawl.grammar.rules.model.Truth;

/** A node with a truth value, as one of the codes of {@link Truth}. Before the start it is unknown, but for what needs no signal. */
public abstract class BoolNode extends Node {

  public int value = Truth.U;

  /** Whether it is true for single moments only: then {@link Graph#raise} sees to its falling back. */
  public boolean isMomentary() {
    return false;
  }

  /** Sets the value and says whether that changed it. */
  protected final boolean become(int truth) {
    boolean changed = truth != value;
    value = truth;
    return changed;
  }
}
