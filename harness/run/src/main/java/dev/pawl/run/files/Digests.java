package dev.pawl.run.files;

import dev.pawl.grammar.source.Source;
import dev.pawl.report.model.Input;
import dev.pawl.run.RunException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;

/** The size and SHA-256 of a file, so that a report says exactly what it rests on. */
public final class Digests {

  private static final int BLOCK = 1 << 16;

  private Digests() {}

  public static Input of(Input.Role role, String path) {
    try {
      MessageDigest digest = sha256();
      long bytes = update(digest, Path.of(path));
      return new Input(role, path, bytes, hexadecimal(digest.digest()));
    } catch (IOException e) {
      return new Input(role, path, 0, "");
    }
  }

  /**
   * The same of a text that was read.
   *
   * @throws RunException if its file is not as it was read any more
   */
  public static Input of(Input.Role role, Source source) {
    try {
      byte[] bytes = Files.readAllBytes(Path.of(source.name()));
      if (!Texts.of(bytes).equals(source.text())) {
        throw changed(source.name());
      }
      return new Input(role, source.name(), bytes.length, hexadecimal(sha256().digest(bytes)));
    } catch (IOException e) {
      return new Input(role, source.name(), 0, "");
    }
  }

  /** Refuses to state a file that is not the one that was used. */
  public static RunException changed(String path) {
    return new RunException(path + ": changed after it was read, so that a report would not say what was judged; run"
        + " again when nothing writes to it");
  }

  /** The SHA-256 of a file, in hexadecimal. */
  public static String sha256(Path file) throws IOException {
    MessageDigest digest = sha256();
    update(digest, file);
    return hexadecimal(digest.digest());
  }

  /** The SHA-256 of a text, in hexadecimal. */
  public static String sha256(String text) {
    return hexadecimal(sha256().digest(text.getBytes(StandardCharsets.UTF_8)));
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  private static long update(MessageDigest digest, Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      byte[] block = new byte[BLOCK];
      long bytes = 0;
      for (int read = in.read(block); read >= 0; read = in.read(block)) {
        digest.update(block, 0, read);
        bytes += read;
      }
      return bytes;
    }
  }

  private static String hexadecimal(byte[] bytes) {
    StringBuilder text = new StringBuilder();
    for (byte b : bytes) {
      text.append(Character.forDigit(b >> 4 & 15, 16)).append(Character.forDigit(b & 15, 16));
    }
    return text.toString();
  }
}
