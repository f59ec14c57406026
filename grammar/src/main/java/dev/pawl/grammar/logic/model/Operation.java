package dev.pawl.grammar.logic.model;

/**
 * The standard functions that are computed by a routine of the run time. Whole numbers, truth values, times and
 * characters are passed as words, reals as doubles, strings as strings.
 */
public enum Operation {
  // numbers
  ABSOLUTE_INTEGER, ABSOLUTE_REAL, SQUARE_ROOT, NATURAL_LOGARITHM, DECIMAL_LOGARITHM, EXPONENTIAL, SINE, COSINE,
      TANGENT, ARC_SINE, ARC_COSINE, ARC_TANGENT, ARC_TANGENT_2, POWER, IS_VALID,
  // bits; the last operand is the width in bits
  SHIFT_LEFT, SHIFT_RIGHT, ROTATE_LEFT, ROTATE_RIGHT, TO_BCD, FROM_BCD, IS_VALID_BCD,
  // selection; the first operand selects
  SELECT_WORD, SELECT_REAL, SELECT_TEXT, MULTIPLEX_CHECK,
  // greater and smaller; unsigned 64-bit numbers have their own
  MAXIMUM_SIGNED, MINIMUM_SIGNED, MAXIMUM_UNSIGNED, MINIMUM_UNSIGNED, MAXIMUM_REAL, MINIMUM_REAL, MAXIMUM_TEXT,
      MINIMUM_TEXT,
  // strings
  LENGTH, LEFT, RIGHT, MIDDLE, CONCATENATE, INSERT, DELETE, REPLACE, FIND, COMPARE_TEXT, TRUNCATE_TEXT,
  // strings from and to values; the last operand of integers is 1 for unsigned 64-bit numbers
  INTEGER_TO_TEXT, REAL_TO_TEXT, SINGLE_TO_TEXT, TRUTH_TO_TEXT, DURATION_TO_TEXT, CHARACTER_TO_TEXT, TEXT_TO_INTEGER,
      TEXT_TO_REAL, TEXT_TO_TRUTH, TEXT_TO_CHARACTER, TEXT_TO_NARROW,
  // times
  DAY_OF, CLOCK_OF, ADD_CLOCK, MILLISECONDS_OF, MILLISECONDS_REAL_OF, MAKE_DATE, MAKE_CLOCK, DAY_OF_WEEK,
  // bits of reals
  REAL_BITS, BITS_REAL, SINGLE_BITS, BITS_SINGLE
}
