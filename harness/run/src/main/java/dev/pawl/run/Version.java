package dev.pawl.run;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** The version of this build and the commit that it was made of, which Maven writes into a resource. */
public final class Version {

  private static final List<String> LINES = read();

  public static final String TEXT = LINES.get(0);

  /** Which build of the version it is, such as {@code commit 1a2b...}, and whether files differed from it. */
  public static final String BUILD = build(LINES.get(1), LINES.get(2));

  private Version() {}

  private static String build(String commit, String changed) {
    return commit.equals("unknown") ? "built where its commit was not known"
        : "commit " + commit + (changed.equals("true") ? " with changes that are in no commit" : "");
  }

  private static List<String> read() {
    try (InputStream in = Version.class.getResourceAsStream("version.txt")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().map(String::strip).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
