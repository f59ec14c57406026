package dev.pawl.mqtt.payload;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;

/** Short, harmless pieces of what a stranger sent, for messages. */
public final class Excerpts {

  private static final int LONGEST = 40;

  private Excerpts() {}

  /** The text in quotes, cut to 40 characters, with characters that control a terminal replaced. */
  public static String of(String text) {
    StringBuilder shown = new StringBuilder("'");
    text.codePoints().limit(LONGEST).forEach(c -> shown.appendCodePoint(isPrintable(c) ? c : '\uFFFD'));
    return shown.append(text.codePointCount(0, text.length()) > LONGEST ? "...'" : "'").toString();
  }

  private static boolean isPrintable(int c) {
    return switch (Character.getType(c)) {
      case Character.CONTROL, Character.FORMAT, Character.SURROGATE, Character.PRIVATE_USE, Character.UNASSIGNED,
          Character.LINE_SEPARATOR, Character.PARAGRAPH_SEPARATOR -> false;
      default -> true;
    };
  }

  /** The bytes as text if they are UTF-8; null if not. */
  static String utf8(byte[] bytes) {
    try {
      return StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
    } catch (CharacterCodingException e) {
      return null;
    }
  }
}
