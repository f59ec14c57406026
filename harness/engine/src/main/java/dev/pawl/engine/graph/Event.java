package dev.pawl.engine.graph;

/**
 * What nodes follow that care only when something happens: a truth value becoming true, or a signal's turn, which needs no node of its own.
 *
 * @param source the truth value, or the signal
 */
public record Event(BoolNode source, Kind kind) {

  /** What is to happen to the source. */
  public enum Kind {
    BECOMES_TRUE,
    SIGNAL_RISES,
    SIGNAL_FALLS
  }

  /** The event that a node becomes true. */
  public static Event of(BoolNode node) {
    return new Event(node, Kind.BECOMES_TRUE);
  }

  /** Whether it is a signal's turn. */
  public boolean isTurn() {
    return kind != Kind.BECOMES_TRUE;
  }
}
