package dev.pawl.grammar.rules.model;

import dev.pawl.grammar.source.Position;

/**
 * A declared signal.
 *
 * @param index its number in the rule book, from 0, which is also its number in event streams
 * @param name its name
 * @param direction as seen from the logic under test
 * @param type its type
 * @param position where it is declared
 */
public record Signal(int index, String name, Direction direction, ValueType type, Position position) {

  /** Which way a signal runs, as seen from the logic under test. */
  public enum Direction {
    INPUT,
    OUTPUT,
    /** A variable of the logic, visible to rules when the logic runs in process. */
    INTERNAL
  }
}
