package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.source.Diagnostics;
import java.util.Optional;

/** A part of a bit string: how far it lies from the least significant bit, and its type. */
record BitPart(int shift, Elementary type) {

  /** The part that an expression names, or nothing after a report. */
  static Optional<BitPart> check(Diagnostics diagnostics, Expression.Part part, Operand owner) {
    if (owner.isWrong()) {
      return Optional.empty();
    }
    Optional<Elementary> whole = owner instanceof Operand.Typed typed ? Conversions.operand(typed.type())
        : Optional.empty();
    if (whole.isEmpty() || whole.get().kind() != Elementary.Kind.BITS) {
      diagnostics.error(part.position(), "only BYTE, WORD, DWORD and LWORD have bits, this is " + owner.typeName());
      return Optional.empty();
    }
    int shift = part.width() * part.index();
    if (shift + part.width() > whole.get().bits() || part.width() == whole.get().bits()) {
      diagnostics.error(part.position(), whole.get().name() + " has no such part: it has " + whole.get().bits()
          + " bits");
      return Optional.empty();
    }
    Elementary type = switch (part.width()) {
      case 1 -> Elementary.BOOL;
      case 8 -> Elementary.BYTE;
      case 16 -> Elementary.WORD;
      default -> Elementary.DWORD;
    };
    return Optional.of(new BitPart(shift, type));
  }
}
