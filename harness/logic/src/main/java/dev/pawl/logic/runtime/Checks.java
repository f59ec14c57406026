package dev.pawl.logic.runtime;

/** The checks that compiled code makes as it runs. */
public final class Checks {

  private Checks() {}

  /** Distance in slots of an element from the first one; a fault where the index is out of bounds. */
  public static int element(long index, long low, long high, int stride) {
    if (index < low || index > high) {
      throw new LogicFault("the index " + index + " lies outside " + low + ".." + high);
    }
    return (int) (index - low) * stride;
  }

  /** The value itself; a fault where a type does not hold it. */
  public static long range(long value, long low, long high) {
    if (value < low || value > high) {
      throw new LogicFault("overflow: " + value + " lies outside " + low + ".." + high);
    }
    return value;
  }

  /** The value itself; a fault where a subrange does not hold it. */
  public static long bounded(long value, long low, long high) {
    if (value < low || value > high) {
      throw new LogicFault("the value " + value + " lies outside the subrange " + low + ".." + high);
    }
    return value;
  }

  /** A fault for an unsigned 64-bit number that a signed one does not hold, and the other way round. */
  public static long sameSign(long value) {
    if (value < 0) {
      throw new LogicFault("overflow: the number does not fit 64 bits of the other signedness");
    }
    return value;
  }

  public static long addUnsigned(long left, long right) {
    long sum = left + right;
    if (Long.compareUnsigned(sum, left) < 0) {
      throw overflow(left, "+", right);
    }
    return sum;
  }

  public static long subtractUnsigned(long left, long right) {
    if (Long.compareUnsigned(left, right) < 0) {
      throw overflow(left, "-", right);
    }
    return left - right;
  }

  public static long multiplyUnsigned(long left, long right) {
    if (unsignedMultiplyHigh(left, right) != 0) {
      throw overflow(left, "*", right);
    }
    return left * right;
  }

  /** Upper half of an unsigned product; the library has it only from Java 18 on. */
  private static long unsignedMultiplyHigh(long left, long right) {
    return Math.multiplyHigh(left, right) + (left >> 63 & right) + (right >> 63 & left);
  }

  private static LogicFault overflow(long left, String operator, long right) {
    return new LogicFault("overflow: " + Long.toUnsignedString(left) + " " + operator + " "
        + Long.toUnsignedString(right) + " does not fit ULINT");
  }

  public static long add(long left, long right) {
    long sum = left + right;
    if (((left ^ sum) & (right ^ sum)) < 0) {
      throw new LogicFault("overflow: " + left + " + " + right + " does not fit 64 bits");
    }
    return sum;
  }

  public static long subtract(long left, long right) {
    long difference = left - right;
    if (((left ^ right) & (left ^ difference)) < 0) {
      throw new LogicFault("overflow: " + left + " - " + right + " does not fit 64 bits");
    }
    return difference;
  }

  public static long multiply(long left, long right) {
    long product = left * right;
    if (Math.multiplyHigh(left, right) != product >> 63) {
      throw new LogicFault("overflow: " + left + " * " + right + " does not fit 64 bits");
    }
    return product;
  }

  /**
   * The divisor itself; a fault where it is zero. Checked here and not by the JVM, whose own exceptions can lose their
   * line.
   */
  public static long divisor(long value) {
    if (value == 0) {
      throw new LogicFault("division by zero");
    }
    return value;
  }

  /** A quotient; a fault for division by zero and for the one quotient that does not fit. */
  public static long divide(long left, long right) {
    if (left == Long.MIN_VALUE && right == -1) {
      throw new LogicFault("overflow: " + left + " / -1 does not fit 64 bits");
    }
    return left / divisor(right);
  }

  /** A remainder that is zero for division by zero. */
  public static long modulo(long left, long right) {
    return right == 0 ? 0 : left % right;
  }

  /** An unsigned remainder that is zero for division by zero. */
  public static long moduloUnsigned(long left, long right) {
    return right == 0 ? 0 : Long.remainderUnsigned(left, right);
  }

  /**
   * A real as a whole number, rounded to the nearest even or truncated; a fault where it lies outside a range, as NaN
   * does.
   */
  public static long whole(double value, boolean truncate, long least, long greatest) {
    double rounded = rounded(value, truncate);
    if (rounded >= least && rounded < 0x1p63 && (long) rounded <= greatest) {
      return (long) rounded;
    }
    throw new LogicFault("overflow: " + value + " lies outside " + least + ".." + greatest);
  }

  /** The same; the nearest end of the range where it lies outside, and 0 for NaN. */
  public static long limited(double value, boolean truncate, long least, long greatest) {
    return Math.max(least, Math.min(greatest, (long) rounded(value, truncate)));
  }

  /** A real as an unsigned number of 64 bits; a fault where they do not hold it. */
  public static long wholeUnsigned(double value, boolean truncate) {
    double rounded = rounded(value, truncate);
    if (rounded >= 0 && rounded < 0x1p64) {
      return unsigned(rounded);
    }
    throw new LogicFault("overflow: " + value + " does not fit ULINT");
  }

  /** The same; the nearest number that they hold where they do not hold it, and 0 for NaN. */
  public static long limitedUnsigned(double value, boolean truncate) {
    double rounded = rounded(value, truncate);
    return rounded >= 0x1p64 ? -1 : rounded > 0 ? unsigned(rounded) : 0;
  }

  private static long unsigned(double whole) {
    return whole < 0x1p63 ? (long) whole : (long) (whole - 0x1p63) + Long.MIN_VALUE;
  }

  private static double rounded(double value, boolean truncate) {
    return truncate ? value < 0 ? Math.ceil(value) : Math.floor(value) : Math.rint(value);
  }

  /** An unsigned 64-bit number as a real. */
  public static double unsignedToReal(long value) {
    double half = (double) (value >>> 1 | value & 1) * 2.0;
    return value >= 0 ? (double) value : half;
  }

  /** The step of a FOR loop, which must not be zero: the loop would never end. */
  public static long step(long by) {
    if (by == 0) {
      throw new LogicFault("the increment is zero, so the loop would never end");
    }
    return by;
  }

  /** Whether a sum of 64 bits, one part of which is given, went beyond them. */
  public static boolean wrapped(long sum, long part) {
    return part > 0 ? sum < Long.MIN_VALUE + part : sum > Long.MAX_VALUE + part;
  }
}
