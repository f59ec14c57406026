package dev.pawl.logic.code;

/**
 * What the standard leaves to the implementer, as far as it is decided when code is generated.
 *
 * @param overflow what happens when a result does not fit its type
 * @param evaluation how much of a boolean expression is evaluated
 * @param moduloByZero what x MOD 0 gives
 * @param unfitReal what becomes of a real that does not fit the integer it is converted to
 * @param arithmetic the type in which integers of less than 32 bits are computed
 * @param widerBits what fills a bit string that is wider than the signed integer it is converted from
 */
public record CodeOptions(Overflow overflow, BooleanEvaluation evaluation, ModuloByZero moduloByZero,
    UnfitReal unfitReal, SmallArithmetic arithmetic, WiderBits widerBits) {

  public static final CodeOptions DEFAULT = new CodeOptions(Overflow.WRAP, BooleanEvaluation.FULL, ModuloByZero.FAULT,
      UnfitReal.FAULT, SmallArithmetic.OWN_TYPE, WiderBits.SIGN);

  public CodeOptions with(Overflow way) {
    return new CodeOptions(way, evaluation, moduloByZero, unfitReal, arithmetic, widerBits);
  }

  public CodeOptions with(BooleanEvaluation way) {
    return new CodeOptions(overflow, way, moduloByZero, unfitReal, arithmetic, widerBits);
  }

  public CodeOptions with(ModuloByZero way) {
    return new CodeOptions(overflow, evaluation, way, unfitReal, arithmetic, widerBits);
  }

  public CodeOptions with(UnfitReal way) {
    return new CodeOptions(overflow, evaluation, moduloByZero, way, arithmetic, widerBits);
  }

  public CodeOptions with(SmallArithmetic way) {
    return new CodeOptions(overflow, evaluation, moduloByZero, unfitReal, way, widerBits);
  }

  public CodeOptions with(WiderBits way) {
    return new CodeOptions(overflow, evaluation, moduloByZero, unfitReal, arithmetic, way);
  }

  /**
   * What happens when the result of an operation on integers or times, or of their conversion, does not fit its type.
   */
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

  /** What becomes of a real that does not fit the integer or time it is converted to; common practice, no source. */
  public enum UnfitReal {
    /** It is a run-time error: controllers give many different numbers, and none of them is the real's. */
    FAULT,
    /** The type's least or greatest value, whichever is nearer; 0 for NaN. */
    LIMIT
  }

  /**
   * The type in which integers of less than 32 bits are computed, where the result goes on to another operation or
   * type.
   */
  public enum SmallArithmetic {
    /** The operands' own, as the standard has it (from memory): LINT := SINT + 100 goes wrong beyond 127. */
    OWN_TYPE,
    /**
     * DINT, as controllers that compute in 32 bits do (common practice, no source); only what is kept has to fit its
     * type.
     */
    DINT
  }

  /** What fills a bit string that is wider than the signed integer it is converted from. */
  public enum WiderBits {
    /** The sign, so that INT_TO_DWORD(-1) is 16#FFFFFFFF (common practice, no source). */
    SIGN,
    /** Zeros, as a transfer of bits has it (the standard's table of conversions, from memory): 16#0000FFFF. */
    ZERO
  }
}
