package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.util.Optional;
import java.util.OptionalLong;

/** The evaluation of expressions that must be known at compile time. */
final class Constants {

  private final Diagnostics diagnostics;
  private final Checking checking;

  Constants(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
  }

  /** A whole number for bounds, lengths and the like. */
  OptionalLong whole(Expression expression, String role) {
    Operand operand = checking.expressions().check(expression, Optional.empty());
    if (operand.isWrong()) {
      return OptionalLong.empty();
    }
    if (operand instanceof Operand.Number number && number.whole()) {
      return OptionalLong.of(checking.adaptation().word(number.value().toBigInteger(), Elementary.LINT,
          number.position()));
    }
    boolean integer = operand instanceof Operand.Typed typed
        && Conversions.operand(typed.type()).filter(Elementary::isInteger).isPresent();
    if (integer && ((Operand.Typed) operand).value() instanceof Value.Constant constant) {
      return OptionalLong.of(constant.word());
    }
    diagnostics.error(expression.position(), role + " must be a whole number known at compile time",
        integer ? "use literals and VAR CONSTANT variables only" : "");
    return OptionalLong.empty();
  }

  /** Tells that something is not known before the program runs. */
  void unknown(Position position, String role) {
    diagnostics.cause(position, role + " must be known at compile time", "use literals and VAR CONSTANT variables only",
        "known", role);
  }

  /** A value of the given scalar type. */
  Value value(Expression expression, LogicType type, String role) {
    Operand operand = checking.expressions().check(expression, Optional.of(type));
    Value value = checking.adaptation().to(type, operand, role);
    if (value instanceof Value.Constant || value instanceof Value.Text) {
      return value;
    }
    if (!operand.isWrong()) {
      unknown(expression.position(), role);
    }
    return Adaptation.anyValue(type);
  }
}
