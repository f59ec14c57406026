package dev.pawl.trace.intake;

import dev.pawl.grammar.source.Legible;
import java.nio.charset.StandardCharsets;

/** Bytes of a trace as text for messages: short, and with nothing in it that could steer a terminal. */
public final class Excerpt {

  private static final int LONGEST = 60;

  private Excerpt() {}

  /** The bytes in single quotes, cut if long; {@code an empty text} if there are none. */
  public static String of(byte[] bytes, int from, int to) {
    if (from >= to) {
      return "an empty text";
    }
    return of(text(bytes, from, to));
  }

  /** The bytes as they are, cut if long. */
  public static String text(byte[] bytes, int from, int to) {
    return new String(bytes, from, Math.min(to - from, 4 * LONGEST), StandardCharsets.UTF_8);
  }

  /** The text in single quotes, cut if long. */
  public static String of(String text) {
    StringBuilder shown = new StringBuilder("'");
    text.codePoints().limit(LONGEST).forEach(c -> shown.appendCodePoint(Legible.isLegible(c) ? c : 0xFFFD));
    return shown + (text.codePointCount(0, text.length()) > LONGEST ? "...'" : "'");
  }

  /** 1-based column, in UTF-16 units, of the byte {@code at} in a row that starts at {@code rowStart}. */
  public static int column(byte[] bytes, int rowStart, int at) {
    return at <= rowStart ? 1 : new String(bytes, rowStart, at - rowStart, StandardCharsets.UTF_8).length() + 1;
  }
}
