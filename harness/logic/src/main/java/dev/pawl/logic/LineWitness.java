package dev.pawl.logic;

import dev.pawl.logic.runtime.LineResults;

/** Whoever is shown, scan by scan, what the watched lines of a program came to. */
public interface LineWitness {

  LineWitness NONE = (time, lines) -> {};

  /**
   * A scan is over.
   *
   * @param time nanoseconds
   * @param lines in the order in which they are watched; another scan's as soon as this returns
   */
  void scanned(long time, LineResults lines);

  /**
   * The same scan is over.
   *
   * @param machine with all that the program remembers
   */
  default void scanned(long time, ScanMachine machine) {}
}
