package dev.pawl.logic.runtime;

import java.math.BigDecimal;
import java.util.Locale;

/** The standard functions of strings, and conversions from and to them. Positions count from 1. */
public final class TextLibrary {

  private TextLibrary() {}

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
    return text.substring(0, from) + text.substring(from + Math.min(within(count, text, "DELETE"),
        text.length() - from));
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
      throw new LogicFault(function + " from position " + position + " of a string of " + text.length()
          + " characters");
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
}
