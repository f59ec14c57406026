package dev.pawl.plant.loop;

/** Whoever is told that the controller loses its power. */
public interface PowerCuts {

  /**
   * The power fails.
   *
   * @param from nanoseconds, when it fails
   * @param to nanoseconds, when it is back
   * @param warm whether the controller then keeps what is declared to be retained
   */
  void cut(long from, long to, boolean warm);
}
