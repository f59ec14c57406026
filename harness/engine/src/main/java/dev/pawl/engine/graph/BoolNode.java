package dev.pawl.engine.graph;

import dev.pawl.grammar.rules.model.Truth;

/** A node with a truth value, as one of the codes of {@link Truth}. Unknown before the start. */
public abstract class BoolNode extends Node {

  public int value = Truth.U;

  /** Sets the value and says whether that changed it. */
  protected final boolean become(int truth) {
    boolean changed = truth != value;
    value = truth;
    return changed;
  }
}
