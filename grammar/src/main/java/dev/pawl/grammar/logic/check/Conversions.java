package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Elementary.Kind;
import dev.pawl.grammar.logic.model.LogicType;
import java.util.List;
import java.util.Optional;

/**
 * Which types turn into which by themselves: the standard's figure 11, from memory. Only conversions that lose nothing
 * do.
 */
final class Conversions {

  /** Types of numbers from the narrowest on; the first that takes both operands is the type of an operation. */
  private static final List<Elementary> NUMBERS = List.of(Elementary.SINT, Elementary.USINT, Elementary.INT,
      Elementary.UINT, Elementary.DINT, Elementary.UDINT, Elementary.LINT, Elementary.ULINT, Elementary.REAL,
      Elementary.LREAL);

  private static final List<Elementary> BITS =
      List.of(Elementary.BOOL, Elementary.BYTE, Elementary.WORD, Elementary.DWORD, Elementary.LWORD);

  private Conversions() {}

  /** The elementary type as which a value takes part in operations: its own, or the base of its subrange. */
  static Optional<Elementary> operand(LogicType type) {
    return type instanceof LogicType.EnumerationType ? Optional.empty() : type.stored();
  }

  static boolean implicit(Elementary from, Elementary to) {
    if (from == to) {
      return true;
    }
    boolean wider = from.bits() < to.bits();
    return switch (from.kind()) {
      case BOOLEAN -> to.kind() == Kind.BITS;
      case BITS -> to.kind() == Kind.BITS && wider;
      case SIGNED -> to.kind() == Kind.SIGNED && wider || to.isReal() && exact(from, to);
      case UNSIGNED -> to.isInteger() && wider || to.isReal() && exact(from, to);
      case REAL -> to.isReal() && wider;
      case DURATION, DATE, CLOCK, DATE_TIME -> to.kind() == from.kind() && to.name().startsWith("L");
      case CHARACTER -> false;
    };
  }

  /** Whether every value of an integer type has a real of its own. */
  private static boolean exact(Elementary integer, Elementary real) {
    return integer.bits() < (real == Elementary.REAL ? 24 : 53);
  }

  /** The type in which an operation on both takes place. */
  static Optional<Elementary> common(Elementary left, Elementary right) {
    if (left == right || implicit(right, left)) {
      return Optional.of(left);
    }
    if (implicit(left, right)) {
      return Optional.of(right);
    }
    List<Elementary> candidates = left.isNumber() ? NUMBERS : left.isBits() ? BITS : List.of();
    return candidates.stream().filter(type -> implicit(left, type) && implicit(right, type)).findFirst();
  }
}
