package dev.pawl.engine.graph;

/**
 * What nodes follow that care only when something happens: a truth value becoming true, or a signal's turn, which needs
 * no node of its own.
 *
 * @param source the truth value, or the signal
 * @param begun whether the truth value has begun; null for a signal, which knows it itself
 */
public record Event(BoolNode source, Kind kind, Begun begun) {

  /** What is to happen to the source. */
  public enum Kind {
    BECOMES_TRUE,
    SIGNAL_RISES,
    SIGNAL_FALLS
  }

  /** The event that a node becomes true. */
  public static Event of(BoolNode node, Begun begun) {
    return new Event(node, Kind.BECOMES_TRUE, begun);
  }

  /** The event that a signal turns from false to true, or the other way. */
  public static Event turn(BoolNode signal, boolean falling) {
    return new Event(signal, falling ? Kind.SIGNAL_FALLS : Kind.SIGNAL_RISES, null);
  }

  /** Whether it is a signal's turn. */
  public boolean isTurn() {
    return kind != Kind.BECOMES_TRUE;
  }
}
