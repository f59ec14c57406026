package dev.pawl.engine.graph;

/** A node with a number in SI base units; NaN while unknown. */
public abstract class NumNode extends Node {

  public double value = Double.NaN;

  /** Sets the value and says whether that changed it; what is not finite becomes unknown. */
  protected final boolean become(double number) {
    double known = Double.isFinite(number) ? number : Double.NaN;
    double before = value;
    value = known;
    return before != known && (before == before || known == known);
  }
}
