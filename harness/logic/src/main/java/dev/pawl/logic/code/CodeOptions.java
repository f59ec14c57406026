package dev.pawl.logic.code;

/**
 * What the standard leaves to the implementer, as far as it is decided when code is generated.
 *
 * @param overflow what happens when a result does not fit its type
 * @param evaluation how much of a boolean expression is evaluated
 * @param moduloByZero what x MOD 0 gives
 */
public record CodeOptions(Overflow overflow, BooleanEvaluation evaluation, ModuloByZero moduloByZero) {

  public static final CodeOptions DEFAULT = new CodeOptions(Overflow.WRAP, BooleanEvaluation.FULL, ModuloByZero.FAULT);

  /** What happens when the result of an integer operation or conversion does not fit its type. */
  public enum Overflow {
    /** The low bits are kept, as most controllers do. */
    WRAP,
    /** It is a run-time error. */
    TRAP
  }

  /** How much of AND and OR is evaluated; the standard allows both. */
  public enum BooleanEvaluation {
    /** Both operands, always. */
    FULL,
    /** The right operand only where the left one leaves the result open. */
    SHORT_CIRCUIT
  }

  /** What x MOD 0 gives. */
  public enum ModuloByZero {
    FAULT,
    /** Zero, as the standard's definition of MOD gives it (from memory). */
    ZERO
  }
}
