package dev.pawl.grammar.logic.model;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/**
 * A program, function or function block, ready to be compiled.
 *
 * @param index its number among the program's units
 * @param name as declared
 * @param kind which of the three
 * @param block the layout of a function block's instances; empty for the others
 * @param variables its variables
 * @param resets variables that get their first value at the start of every call
 * @param body its statements
 * @param position where it is declared
 */
public record Unit(int index, String name, Kind kind, Optional<BlockType> block, List<Variable> variables,
    List<Variable> resets, List<Step> body, Position position) {

  public Unit {
    variables = List.copyOf(variables);
    resets = List.copyOf(resets);
    body = List.copyOf(body);
  }

  /** The three kinds of units. */
  public enum Kind {
    PROGRAM,
    FUNCTION,
    FUNCTION_BLOCK
  }
}
