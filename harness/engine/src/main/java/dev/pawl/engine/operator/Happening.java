package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.grammar.rules.model.Truth;

/**
 * The test whether an event happens: its expression is true and was not at the moment before. It possibly happens when the expression
 * becomes unknown after having been false or true. Nothing has happened before the start.
 */
public final class Happening {

  private final boolean momentary;
  private int before = Truth.F;
  private boolean started;
  private boolean sure;
  private boolean possible;

  /** Of an expression; that a momentary one falls back goes without saying, so {@link #follow} need not be told. */
  public Happening(BoolNode expression) {
    momentary = expression.isMomentary();
  }

  /** Takes the expression's value at the moment being evaluated. To be called at every evaluation. */
  public void follow(int truth) {
    sure = truth == Truth.T && (!started || before != Truth.T);
    possible = Kleene.isUnknown(truth) && (!started || !Kleene.isUnknown(before));
    before = momentary && truth == Truth.T ? Truth.F : truth;
    started = true;
  }

  /** Whether the event happens at the moment of the last call. */
  public boolean happens() {
    return sure;
  }

  /** Whether it possibly happens at the moment of the last call. */
  public boolean possiblyHappens() {
    return possible;
  }
}
