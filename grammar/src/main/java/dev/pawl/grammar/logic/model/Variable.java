package dev.pawl.grammar.logic.model;

import dev.pawl.grammar.source.Position;
import java.util.Locale;

/**
 * A declared variable.
 *
 * @param name as declared
 * @param type its type
 * @param role what it is for
 * @param offset its slot, counted from the start of the instance in a function block and of memory everywhere else
 * @param constant whether it may never change
 * @param retain whether it survives a warm restart
 * @param address the located address such as {@code %IX0.1} in upper case, or the empty string
 * @param initial its first value
 * @param position where it is declared
 */
public record Variable(String name, LogicType type, Role role, int offset, boolean constant, boolean retain,
    String address, Image initial, Position position) {

  /** What a variable is for. */
  public enum Role {
    INPUT,
    OUTPUT,
    IN_OUT,
    LOCAL,
    TEMPORARY,
    GLOBAL,
    /** The result of a function, under the function's name. */
    RESULT
  }

  public String key() {
    return name.toUpperCase(Locale.ROOT);
  }

  /** Whether it is located at an input of the hardware. */
  public boolean atInput() {
    return address.startsWith("%I");
  }
}
