package dev.pawl.run;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The version of this build, which Maven writes into a resource. */
public final class Version {

  public static final String TEXT = read();

  private Version() {}

  /** Tells builds of one version apart: by the sizes and times of what Java loads classes from. */
  static String build() {
    StringBuilder parts = new StringBuilder();
    for (String part : System.getProperty("java.class.path", "").split(File.pathSeparator)) {
      File file = new File(part);
      parts.append(part).append(' ').append(file.length()).append(' ').append(file.lastModified()).append('\n');
    }
    return parts.toString();
  }

  private static String read() {
    try (InputStream in = Version.class.getResourceAsStream("version.txt")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).strip();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
