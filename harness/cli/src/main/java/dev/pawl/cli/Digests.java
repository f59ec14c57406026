package dev.pawl.cli;

import dev.pawl.report.model.Input;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;

/** The size and SHA-256 of a file, so that a report says exactly what it rests on. */
final class Digests {

  private static final int BLOCK = 1 << 16;

  private Digests() {}

  static Input of(Input.Role role, String path) {
    try (InputStream in = Files.newInputStream(Path.of(path))) {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      byte[] block = new byte[BLOCK];
      long bytes = 0;
      for (int read = in.read(block); read >= 0; read = in.read(block)) {
        digest.update(block, 0, read);
        bytes += read;
      }
      return new Input(role, path, bytes, hexadecimal(digest.digest()));
    } catch (IOException e) {
      return new Input(role, path, 0, "");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
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
