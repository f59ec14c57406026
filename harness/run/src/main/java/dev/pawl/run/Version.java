package dev.pawl.run;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The version of this build, which Maven writes into a resource. */
public final class Version {

  public static final String TEXT = read();

  private Version() {}

  private static String read() {
    try (InputStream in = Version.class.getResourceAsStream("version.txt")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).strip();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
