package dev.pawl.run.files;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Text files as users write them: UTF-8, with or without a byte order mark, and no larger than whoever or whatever
 * writes them makes them.
 */
public final class Texts {

  private static final long MEGABYTE = 1024 * 1024;

  private Texts() {}

  /** The text; the exception's message says what is wrong with it. */
  public static String read(Path file) throws IOException {
    if (size(file) > 16 * MEGABYTE) {
      throw new IOException("larger than 16 MB, which no file written by hand is");
    }
    return of(Files.readAllBytes(file));
  }

  /**
   * A text whose letters may have been guessed.
   *
   * @param doubtfulLine the first line, from 1, that is not UTF-8; 0 where none is
   */
  record Decoded(String text, int doubtfulLine) {}

  /**
   * The text, which a tool may have exported, in UTF-8, in UTF-16 where a byte order mark says so, else in
   * Windows-1252.
   */
  static Decoded readInAnyLetters(Path file) throws IOException {
    if (size(file) > 64 * MEGABYTE) {
      throw new IOException("larger than 64 MB; export the project in several files");
    }
    byte[] bytes = Files.readAllBytes(file);
    boolean wide = bytes.length >= 2 && ((bytes[0] & 0xFF) == 0xFE && (bytes[1] & 0xFF) == 0xFF
        || (bytes[0] & 0xFF) == 0xFF && (bytes[1] & 0xFF) == 0xFE);
    if (wide) {
      return new Decoded(new String(bytes, StandardCharsets.UTF_16), 0);
    }
    try {
      return new Decoded(of(bytes), 0);
    } catch (IOException notUtf8) {
      return new Decoded(new String(bytes, Charset.forName("windows-1252")), firstDoubtful(bytes));
    }
  }

  private static int firstDoubtful(byte[] bytes) {
    ByteBuffer in = ByteBuffer.wrap(bytes);
    StandardCharsets.UTF_8.newDecoder().decode(in, CharBuffer.allocate(bytes.length), true);
    int line = 1;
    for (int i = 0; i < in.position(); i++) {
      line += bytes[i] == '\n' ? 1 : 0;
    }
    return line;
  }

  private static long size(Path file) throws IOException {
    if (Files.isDirectory(file)) {
      throw new IOException("is a folder; a file is needed here");
    }
    if (Files.exists(file) && !Files.isRegularFile(file)) {
      throw new IOException("no regular file; a device or pipe is not read");
    }
    return Files.size(file);
  }

  /** The text that the bytes of a file are. */
  static String of(byte[] bytes) throws IOException {
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw new IOException("not a text in UTF-8; save it with that encoding");
    }
  }
}
