package dev.pawl.logic.runtime;

import java.util.Locale;

/**
 * The standard functions of numbers and bits. Each routine has the name of its
 * {@link dev.pawl.grammar.logic.model.Operation}; whole numbers and truth values are words, a truth value being 0 or 1.
 * {@code StrictMath} gives the same bits on every machine.
 */
public final class StandardLibrary {

  private StandardLibrary() {}

  public static long absoluteInteger(long value) {
    return Math.abs(value);
  }

  public static double absoluteReal(double value) {
    return Math.abs(value);
  }

  public static double squareRoot(double value) {
    return Math.sqrt(value);
  }

  public static double naturalLogarithm(double value) {
    return StrictMath.log(value);
  }

  public static double decimalLogarithm(double value) {
    return StrictMath.log10(value);
  }

  public static double exponential(double value) {
    return StrictMath.exp(value);
  }

  public static double sine(double value) {
    return StrictMath.sin(value);
  }

  public static double cosine(double value) {
    return StrictMath.cos(value);
  }

  public static double tangent(double value) {
    return StrictMath.tan(value);
  }

  public static double arcSine(double value) {
    return StrictMath.asin(value);
  }

  public static double arcCosine(double value) {
    return StrictMath.acos(value);
  }

  public static double arcTangent(double value) {
    return StrictMath.atan(value);
  }

  public static double arcTangent2(double y, double x) {
    return StrictMath.atan2(y, x);
  }

  public static double power(double base, double exponent) {
    return StrictMath.pow(base, exponent);
  }

  public static long isValid(double value) {
    return Double.isFinite(value) ? 1 : 0;
  }

  public static long shiftLeft(long bits, long count, long width) {
    return shiftable(count) >= width ? 0 : bits << count & mask(width);
  }

  public static long shiftRight(long bits, long count, long width) {
    return shiftable(count) >= width ? 0 : bits >>> count;
  }

  private static long shiftable(long count) {
    if (count < 0) {
      throw new LogicFault("the shift count " + count + " is negative");
    }
    return count;
  }

  public static long rotateLeft(long bits, long count, long width) {
    long turn = shiftable(count) % width;
    return turn == 0 ? bits : (bits << turn | bits >>> width - turn) & mask(width);
  }

  public static long rotateRight(long bits, long count, long width) {
    return rotateLeft(bits, width - shiftable(count) % width, width);
  }

  private static long mask(long width) {
    return width == 64 ? -1L : (1L << width) - 1;
  }

  public static long toBcd(long value, long width) {
    long rest = value;
    long coded = 0;
    for (int shift = 0; shift < width; shift += 4) {
      coded |= Long.remainderUnsigned(rest, 10) << shift;
      rest = Long.divideUnsigned(rest, 10);
    }
    if (rest != 0) {
      throw new LogicFault(Long.toUnsignedString(value) + " has more digits than " + width + " bits of BCD hold");
    }
    return coded;
  }

  public static long fromBcd(long coded, long width) {
    if (isValidBcd(coded, width) == 0) {
      throw new LogicFault("16#" + Long.toHexString(coded).toUpperCase(Locale.ROOT) + " is no BCD number");
    }
    return Long.parseLong(Long.toHexString(coded));
  }

  public static long isValidBcd(long coded, long width) {
    for (int shift = 0; shift < width; shift += 4) {
      if ((coded >>> shift & 15) > 9) {
        return 0;
      }
    }
    return 1;
  }

  public static long selectWord(long selector, long ifFalse, long ifTrue) {
    return selector != 0 ? ifTrue : ifFalse;
  }

  public static double selectReal(long selector, double ifFalse, double ifTrue) {
    return selector != 0 ? ifTrue : ifFalse;
  }

  public static String selectText(long selector, String ifFalse, String ifTrue) {
    return selector != 0 ? ifTrue : ifFalse;
  }

  public static long multiplexCheck(long selector, long count) {
    if (selector < 0 || selector >= count) {
      throw new LogicFault("MUX was to select input " + selector + " of 0.." + (count - 1));
    }
    return selector;
  }

  public static long maximumSigned(long left, long right) {
    return Math.max(left, right);
  }

  public static long minimumSigned(long left, long right) {
    return Math.min(left, right);
  }

  public static long maximumUnsigned(long left, long right) {
    return Long.compareUnsigned(left, right) >= 0 ? left : right;
  }

  public static long minimumUnsigned(long left, long right) {
    return Long.compareUnsigned(left, right) <= 0 ? left : right;
  }

  public static double maximumReal(double left, double right) {
    return Math.max(left, right);
  }

  public static double minimumReal(double left, double right) {
    return Math.min(left, right);
  }

  public static long realBits(double value) {
    return Double.doubleToRawLongBits(value);
  }

  public static double bitsReal(long bits) {
    return Double.longBitsToDouble(bits);
  }

  public static long singleBits(double value) {
    return Integer.toUnsignedLong(Float.floatToRawIntBits((float) value));
  }

  public static double bitsSingle(long bits) {
    return Float.intBitsToFloat((int) bits);
  }
}
