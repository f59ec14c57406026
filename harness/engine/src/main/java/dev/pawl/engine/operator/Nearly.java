package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.grammar.rules.model.Truth;

/**
 * A condition over a duration, borderline at the moment at which its time is broken off so shortly before it is up that
 * it may have been.
 */
public final class Nearly extends BoolNode {

  private final BoolNode whole;
  private final BoolNode shorter;
  private final int rest;
  private int wholeBefore = Truth.U;
  private int shorterBefore = Truth.U;

  /**
   * One of a condition.
   *
   * @param shorter the same over the shorter duration that it may have been
   * @param rest what it is until its time is up
   */
  public Nearly(BoolNode whole, BoolNode shorter, int rest) {
    this.whole = whole;
    this.shorter = shorter;
    this.rest = rest;
  }

  @Override
  protected void connect() {
    dependOn(whole);
    dependOn(shorter);
    value = whole.value;
  }

  @Override
  public boolean update(long moment) {
    boolean rests = whole.value == rest && wholeBefore == rest && shorter.value == rest;
    boolean nearly = rests && shorterBefore == Kleene.not(rest);
    wholeBefore = whole.value;
    shorterBefore = shorter.value;
    if (nearly) {
      comeBack();
    }
    return become(nearly ? Truth.B : whole.value);
  }
}
