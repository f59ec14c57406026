package dev.pawl.engine.graph;

/** A node with a member of an enumeration, as its index; -1 while unknown. */
public abstract class EnumNode extends Node {

  public static final int UNKNOWN = -1;

  public int value = UNKNOWN;

  /** Sets the value and says whether that changed it. */
  protected final boolean become(int member) {
    boolean changed = member != value;
    value = member;
    return changed;
  }
}
