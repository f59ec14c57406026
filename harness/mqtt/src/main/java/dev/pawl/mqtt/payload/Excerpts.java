package dev.pawl.mqtt.payload;

import dev.pawl.grammar.source.Legible;
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
    text.codePoints().limit(LONGEST).forEach(c -> shown.appendCodePoint(Legible.isLegible(c) ? c : '\uFFFD'));
    return shown.append(text.codePointCount(0, text.length()) > LONGEST ? "...'" : "'").toString();
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
