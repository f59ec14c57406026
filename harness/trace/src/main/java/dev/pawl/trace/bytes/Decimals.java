package dev.pawl.trace.bytes;

import dev.pawl.grammar.rules.model.Scale;
import java.nio.charset.StandardCharsets;

/**
 * Decimal numbers from text, each to the nearest double.
 *
 * <p>A number of at most 15 significant digits and a power of ten up to 22 is a product or quotient of two exact
 * doubles, so one operation rounds it right (W. D. Clinger, "How to read floating point numbers accurately", 1990; from
 * memory). Everything else goes through {@link Double#parseDouble}.
 */
public final class Decimals {

  /** What {@link #parse} gives for a text that is no finite decimal number. */
  public static final double INVALID = Double.NaN;

  private static final long EXACT = 1L << 53;
  private static final int EXACT_POWER = 22;
  private static final double[] POWERS = new double[EXACT_POWER + 1];

  static {
    for (int i = 0; i <= EXACT_POWER; i++) {
      POWERS[i] = Double.parseDouble("1e" + i);
    }
  }

  private Decimals() {}

  /**
   * The number that the bytes spell: optional sign, digits with an optional point among, before or after them, optional
   * exponent.
   *
   * @return the nearest double, never negative zero; {@link #INVALID} for other text and for numbers beyond all doubles
   */
  public static double parse(byte[] bytes, int from, int to) {
    return parse(bytes, from, to, Scale.SAME, '.');
  }

  /**
   * As {@link #parse(byte[], int, int)}, the decimal number converted before it is rounded.
   *
   * @param point what stands before the decimals
   */
  public static double parse(byte[] bytes, int from, int to, Scale scale, char point) {
    int at = from;
    boolean negative = false;
    if (at < to && (bytes[at] == '-' || bytes[at] == '+')) {
      negative = bytes[at++] == '-';
    }
    int firstDigit = at;
    long digits = 0;
    while (at < to && isDigit(bytes[at])) {
      digits = digits * 10 + bytes[at++] - '0';
    }
    int count = at - firstDigit;
    int fraction = 0;
    if (at < to && bytes[at] == point) {
      int mark = at++;
      while (at < to && isDigit(bytes[at])) {
        digits = digits * 10 + bytes[at++] - '0';
      }
      fraction = at - mark - 1;
      count += fraction;
    }
    boolean simple = at == to && count > 0 && count <= 18 && fraction <= EXACT_POWER;
    if (simple && !scale.isSame()) {
      return finite(scale.convert(negative ? -digits : digits, fraction));
    }
    if (!simple || digits > EXACT) {
      return isDecimal(bytes, from, to, point) ? slow(bytes, from, to, scale, point) : INVALID;
    }
    double value = fraction == 0 ? digits : digits / POWERS[fraction];
    return (negative ? -value : value) + 0.0;
  }

  private static double slow(byte[] bytes, int from, int to, Scale scale, char point) {
    return finite(scale.convert(new String(bytes, from, to - from, StandardCharsets.US_ASCII).replace(point, '.')));
  }

  private static double finite(double value) {
    return Double.isInfinite(value) ? INVALID : value + 0.0;
  }

  /**
   * Whether the text is a decimal number at all; {@link Double#parseDouble} alone would take hexadecimal and suffixed
   * ones too.
   */
  private static boolean isDecimal(byte[] bytes, int from, int to, char point) {
    int at = from;
    if (at < to && (bytes[at] == '-' || bytes[at] == '+')) {
      at++;
    }
    int whole = digitsEnd(bytes, at, to);
    int count = whole - at;
    at = whole;
    if (at < to && bytes[at] == point) {
      int end = digitsEnd(bytes, at + 1, to);
      count += end - at - 1;
      at = end;
    }
    if (count == 0) {
      return false;
    }
    if (at < to && (bytes[at] | 0x20) == 'e') {
      at++;
      if (at < to && (bytes[at] == '-' || bytes[at] == '+')) {
        at++;
      }
      int end = digitsEnd(bytes, at, to);
      return end > at && end == to;
    }
    return at == to;
  }

  private static int digitsEnd(byte[] bytes, int from, int to) {
    int at = from;
    while (at < to && isDigit(bytes[at])) {
      at++;
    }
    return at;
  }

  public static boolean isDigit(byte value) {
    return value >= '0' && value <= '9';
  }
}
