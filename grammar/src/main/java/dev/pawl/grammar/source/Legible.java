package dev.pawl.grammar.source;

/**
 * Text from outside as it may be shown to a person: what steers a terminal, turns the order of letters round or shows
 * nothing is replaced by U+FFFD, so that a hostile name reads as what it is.
 */
public final class Legible {

  private static final char REPLACEMENT = '\uFFFD';
  /** They say which letters join, without which some scripts cannot be written. */
  private static final int NON_JOINER = 0x200C;
  private static final int JOINER = 0x200D;

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
   * Whether a code point shows as itself: no control character, line or paragraph separator, half of a surrogate pair,
   * or mark that shows nothing, as those of the direction of writing (Unicode Standard Annex 9, section 2, from
   * memory).
   */
  public static boolean isLegible(int codePoint) {
    return !Character.isISOControl(codePoint) && !isUnseen(codePoint) && codePoint != 0x2028 && codePoint != 0x2029
        && !(codePoint >= Character.MIN_SURROGATE && codePoint <= Character.MAX_SURROGATE);
  }

  private static boolean isUnseen(int codePoint) {
    return Character.getType(codePoint) == Character.FORMAT && codePoint != NON_JOINER && codePoint != JOINER;
  }
}
