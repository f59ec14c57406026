package dev.pawl.logic.runtime;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Locale;

/**
 * The standard functions. Each routine has the name of its {@link dev.pawl.grammar.logic.model.Operation}; whole numbers, truth values and
 * times are words, a truth value being 0 or 1. Positions in strings count from 1.
 */
public final class StandardLibrary {

  private static final long DAY = 86_400_000_000_000L;
  private static final long MILLISECOND = 1_000_000L;

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

  public static String maximumText(String left, String right) {
    return left.compareTo(right) >= 0 ? left : right;
  }

  public static String minimumText(String left, String right) {
    return left.compareTo(right) <= 0 ? left : right;
  }

  public static long compareText(String left, String right) {
    return left.compareTo(right);
  }

  public static String truncateText(String text, long length) {
    return text.length() <= length ? text : text.substring(0, (int) length);
  }

  public static long length(String text) {
    return text.length();
  }

  public static String left(String text, long count) {
    return text.substring(0, within(count, text, "LEFT"));
  }

  public static String right(String text, long count) {
    return text.substring(text.length() - within(count, text, "RIGHT"));
  }

  public static String middle(String text, long count, long position) {
    int from = start(position, text, "MID");
    return text.substring(from, from + Math.min(within(count, text, "MID"), text.length() - from));
  }

  public static String concatenate(String left, String right) {
    return truncateText(left.concat(right), 65_535);
  }

  public static String insert(String text, String inserted, long position) {
    if (position < 0 || position > text.length()) {
      throw new LogicFault("INSERT at position " + position + " of a string of " + text.length() + " characters");
    }
    return truncateText(text.substring(0, (int) position) + inserted + text.substring((int) position), 65_535);
  }

  public static String delete(String text, long count, long position) {
    int from = start(position, text, "DELETE");
    return text.substring(0, from) + text.substring(from + Math.min(within(count, text, "DELETE"), text.length() - from));
  }

  public static String replace(String text, String replacement, long count, long position) {
    int from = start(position, text, "REPLACE");
    String rest = text.substring(from + Math.min(within(count, text, "REPLACE"), text.length() - from));
    return truncateText(text.substring(0, from) + replacement + rest, 65_535);
  }

  public static long find(String text, String wanted) {
    return wanted.isEmpty() ? 0 : text.indexOf(wanted) + 1;
  }

  /** A count of characters, cut to the text's length. */
  private static int within(long count, String text, String function) {
    if (count < 0) {
      throw new LogicFault(function + " of " + count + " characters");
    }
    return (int) Math.min(count, text.length());
  }

  /** A position counted from 1 as an index counted from 0. */
  private static int start(long position, String text, String function) {
    if (position < 1 || position > text.length() + 1L) {
      throw new LogicFault(function + " from position " + position + " of a string of " + text.length() + " characters");
    }
    return (int) position - 1;
  }

  public static String integerToText(long value, long unsigned) {
    return unsigned != 0 ? Long.toUnsignedString(value) : Long.toString(value);
  }

  public static String realToText(double value) {
    return Double.toString(value);
  }

  public static String singleToText(double value) {
    return Float.toString((float) value);
  }

  public static String truthToText(long value) {
    return value != 0 ? "TRUE" : "FALSE";
  }

  /** {@code T#1d2h3m4s5ms}, units that are zero left out. */
  public static String durationToText(long nanoseconds) {
    String[] units = {"d", "h", "m", "s", "ms", "us", "ns"};
    long[] lengths = {DAY, 3_600_000_000_000L, 60_000_000_000L, 1_000_000_000L, MILLISECOND, 1_000L, 1L};
    StringBuilder text = new StringBuilder(nanoseconds < 0 ? "T#-" : "T#");
    BigInteger rest = BigInteger.valueOf(nanoseconds).abs();
    for (int i = 0; i < units.length; i++) {
      BigInteger[] parts = rest.divideAndRemainder(BigInteger.valueOf(lengths[i]));
      text.append(parts[0].signum() == 0 ? "" : parts[0] + units[i]);
      rest = parts[1];
    }
    return nanoseconds == 0 ? "T#0s" : text.toString();
  }

  public static String characterToText(long character) {
    return String.valueOf((char) character);
  }

  public static long textToInteger(String text, long unsigned) {
    try {
      String digits = text.strip().replace("_", "");
      return unsigned != 0 ? Long.parseUnsignedLong(digits) : Long.parseLong(digits);
    } catch (NumberFormatException notNumber) {
      throw new LogicFault("the string '" + truncateText(text, 40) + "' is no whole number");
    }
  }

  public static double textToReal(String text) {
    try {
      return new BigDecimal(text.strip().replace("_", "")).doubleValue();
    } catch (NumberFormatException notNumber) {
      throw new LogicFault("the string '" + truncateText(text, 40) + "' is no number");
    }
  }

  public static long textToTruth(String text) {
    return switch (text.strip().toUpperCase(Locale.ROOT)) {
      case "TRUE", "1" -> 1;
      case "FALSE", "0" -> 0;
      default -> throw new LogicFault("the string '" + truncateText(text, 40) + "' is neither TRUE nor FALSE");
    };
  }

  public static long textToCharacter(String text) {
    if (text.isEmpty()) {
      throw new LogicFault("an empty string has no first character");
    }
    return text.charAt(0);
  }

  /** Characters beyond 255 become question marks. */
  public static String textToNarrow(String text) {
    StringBuilder narrow = new StringBuilder(text);
    for (int i = 0; i < narrow.length(); i++) {
      if (narrow.charAt(i) > 255) {
        narrow.setCharAt(i, '?');
      }
    }
    return narrow.toString();
  }

  public static long durationTimesReal(long duration, double factor) {
    return Checks.wholeChecked(duration * factor, false);
  }

  public static long durationOverReal(long duration, double divisor) {
    if (divisor == 0) {
      throw new LogicFault("division by zero");
    }
    return Checks.wholeChecked(duration / divisor, false);
  }

  public static long durationTimesInteger(long duration, long factor) {
    return Checks.multiply(duration, factor);
  }

  public static long durationOverInteger(long duration, long divisor) {
    return Checks.divide(duration, divisor);
  }

  public static long dayOf(long instant) {
    return Math.floorDiv(instant, DAY) * DAY;
  }

  public static long clockOf(long instant) {
    return Math.floorMod(instant, DAY);
  }

  /** A time of day moved by a duration, around midnight. */
  public static long addClock(long clock, long duration) {
    return Math.floorMod(clock + duration % DAY, DAY);
  }

  public static long millisecondsOf(long duration) {
    return duration / MILLISECOND;
  }

  public static long millisecondsToDuration(long milliseconds) {
    return Checks.multiply(milliseconds, MILLISECOND);
  }

  public static double millisecondsRealOf(long duration) {
    return duration / (double) MILLISECOND;
  }

  public static long millisecondsRealToDuration(double milliseconds) {
    return Checks.wholeChecked(milliseconds * MILLISECOND, false);
  }

  public static long makeDate(long year, long month, long day) {
    try {
      return Math.multiplyExact(LocalDate.of(Math.toIntExact(year), Math.toIntExact(month), Math.toIntExact(day)).toEpochDay(), DAY);
    } catch (DateTimeException | ArithmeticException noSuchDay) {
      throw new LogicFault("there is no day " + year + "-" + month + "-" + day);
    }
  }

  public static long makeClock(long hour, long minute, long second, long millisecond) {
    boolean valid = hour >= 0 && hour < 24 && minute >= 0 && minute < 60 && second >= 0 && second < 60 && millisecond >= 0
        && millisecond < 1000;
    if (!valid) {
      throw new LogicFault("there is no time of day " + hour + ":" + minute + ":" + second + "." + millisecond);
    }
    return ((hour * 60 + minute) * 60 + second) * 1_000_000_000L + millisecond * MILLISECOND;
  }

  /** 0 for Sunday to 6 for Saturday. */
  public static long dayOfWeek(long date) {
    return Math.floorMod(Math.floorDiv(date, DAY) + 4, 7);
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
