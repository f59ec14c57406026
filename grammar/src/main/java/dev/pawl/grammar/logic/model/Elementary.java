package dev.pawl.grammar.logic.model;

import java.math.BigInteger;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The elementary types of the standard's table 10, strings aside. How a value is kept in a 64-bit word: BOOL as 0 or 1;
 * signed numbers in two's complement; unsigned numbers and bit strings zero-extended (64-bit ones use all bits); REAL
 * and LREAL as the bits of a double, REAL rounded to single precision; durations in nanoseconds; dates in nanoseconds
 * since 1970-01-01 and times of day since midnight; characters as UTF-16 code units.
 */
public enum Elementary implements LogicType {
  BOOL(Kind.BOOLEAN, 1),
  BYTE(Kind.BITS, 8),
  WORD(Kind.BITS, 16),
  DWORD(Kind.BITS, 32),
  LWORD(Kind.BITS, 64),
  SINT(Kind.SIGNED, 8),
  INT(Kind.SIGNED, 16),
  DINT(Kind.SIGNED, 32),
  LINT(Kind.SIGNED, 64),
  USINT(Kind.UNSIGNED, 8),
  UINT(Kind.UNSIGNED, 16),
  UDINT(Kind.UNSIGNED, 32),
  ULINT(Kind.UNSIGNED, 64),
  REAL(Kind.REAL, 32),
  LREAL(Kind.REAL, 64),
  TIME(Kind.DURATION, 64),
  LTIME(Kind.DURATION, 64),
  DATE(Kind.DATE, 64),
  LDATE(Kind.DATE, 64),
  TIME_OF_DAY(Kind.CLOCK, 64),
  LTIME_OF_DAY(Kind.CLOCK, 64),
  DATE_AND_TIME(Kind.DATE_TIME, 64),
  LDATE_AND_TIME(Kind.DATE_TIME, 64),
  CHAR(Kind.CHARACTER, 8),
  WCHAR(Kind.CHARACTER, 16);

  /** What the values of a type are. */
  public enum Kind {
    BOOLEAN,
    BITS,
    SIGNED,
    UNSIGNED,
    REAL,
    DURATION,
    DATE,
    CLOCK,
    DATE_TIME,
    CHARACTER
  }

  private static final Map<String, Elementary> SHORT_NAMES = Map.of("TOD", TIME_OF_DAY, "LTOD", LTIME_OF_DAY, "DT",
      DATE_AND_TIME, "LDT", LDATE_AND_TIME, "D", DATE, "LD", LDATE, "T", TIME, "LT", LTIME);

  /** Short names that stand before literals only. */
  private static final Set<String> PREFIXES = Set.of("T", "LT", "D", "LD");

  private final Kind kind;
  private final int bits;

  Elementary(Kind kind, int bits) {
    this.kind = kind;
    this.bits = bits;
  }

  /** The type of that name, short names such as TOD included, case ignored. */
  public static Optional<Elementary> named(String name) {
    String key = name.toUpperCase(Locale.ROOT);
    for (Elementary type : values()) {
      if (type.name().equals(key)) {
        return Optional.of(type);
      }
    }
    return Optional.ofNullable(SHORT_NAMES.get(key));
  }

  /** Whether a type of the program can have that name: T, D and the like only begin literals. */
  public static boolean free(String name) {
    return named(name).isEmpty() || PREFIXES.contains(name.toUpperCase(Locale.ROOT));
  }

  public Kind kind() {
    return kind;
  }

  public int bits() {
    return bits;
  }

  @Override
  public Image initial() {
    return Image.word(0);
  }

  @Override
  public Optional<Elementary> stored() {
    return Optional.of(this);
  }

  public boolean isInteger() {
    return kind == Kind.SIGNED || kind == Kind.UNSIGNED;
  }

  public boolean isReal() {
    return kind == Kind.REAL;
  }

  /** ANY_NUM of the standard. */
  public boolean isNumber() {
    return isInteger() || isReal();
  }

  /** ANY_BIT of the standard. */
  public boolean isBits() {
    return kind == Kind.BITS || kind == Kind.BOOLEAN;
  }

  /** ANY_DATE of the standard. */
  public boolean isDate() {
    return kind == Kind.DATE || kind == Kind.CLOCK || kind == Kind.DATE_TIME;
  }

  public boolean isUnsigned() {
    return kind == Kind.UNSIGNED || kind == Kind.BITS;
  }

  /** Smallest value of a whole-number type or bit string. */
  public BigInteger least() {
    return kind == Kind.SIGNED ? BigInteger.ONE.shiftLeft(bits - 1).negate() : BigInteger.ZERO;
  }

  /** Greatest value of a whole-number type or bit string. */
  public BigInteger greatest() {
    return BigInteger.ONE.shiftLeft(kind == Kind.SIGNED ? bits - 1 : bits).subtract(BigInteger.ONE);
  }
}
