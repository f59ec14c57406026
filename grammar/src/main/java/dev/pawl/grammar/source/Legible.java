package dev.pawl.grammar.source;

/**
 * Text from outside as it may be shown to a person: what steers a terminal or turns the order of letters round is replaced by
 * U+FFFD, so that a hostile name reads as what it is.
 */
public final class Legible {

  private static final char REPLACEMENT = '\uFFFD';

  private Legible() {}

  /** The text with everything replaced that cannot be shown as it is; the same object if there is nothing. */
  public static String of(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (Character.isSurrogate(text.charAt(i)) || !isLegible(text.charAt(i))) {
        return replaced(text);
      }
    }
    return text;
  }

  private static String replaced(String text) {
    StringBuilder shown = new StringBuilder(text.length());
    text.codePoints().forEach(c -> shown.appendCodePoint(isLegible(c) ? c : REPLACEMENT));
    return shown.toString();
  }

  /**
   * Whether a code point shows as itself: no control character, line or paragraph separator, half of a surrogate pair or
   * control of the direction of writing (Unicode Standard Annex 9, section 2, from memory).
   */
  public static boolean isLegible(int codePoint) {
    return !Character.isISOControl(codePoint) && !isDirection(codePoint) && codePoint != 0x2028 && codePoint != 0x2029
        && !(codePoint >= Character.MIN_SURROGATE && codePoint <= Character.MAX_SURROGATE);
  }

  private static boolean isDirection(int c) {
    return c == 0x061C || c == 0x200E || c == 0x200F || c >= 0x202A && c <= 0x202E || c >= 0x2066 && c <= 0x2069;
  }
}
