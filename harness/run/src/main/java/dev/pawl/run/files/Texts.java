package dev.pawl.run.files;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Text files as users write them: UTF-8, with or without a byte order mark, and of a size that a person could have
 * written.
 */
public final class Texts {

  private static final long MOST_BYTES = 16L * 1024 * 1024;

  private Texts() {}

  /** The text; the exception's message says what is wrong with it. */
  public static String read(Path file) throws IOException {
    if (Files.isDirectory(file)) {
      throw new IOException("is a folder; a file is needed here");
    }
    if (Files.exists(file) && !Files.isRegularFile(file)) {
      throw new IOException("no regular file; a device or pipe is not read");
    }
    if (Files.size(file) > MOST_BYTES) {
      throw new IOException("larger than 16 MB, which no file written by hand is");
    }
    return of(Files.readAllBytes(file));
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
