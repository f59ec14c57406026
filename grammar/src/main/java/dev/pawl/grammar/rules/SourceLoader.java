package dev.pawl.grammar.rules;

import dev.pawl.grammar.source.Source;
import java.io.IOException;

/** Where the files come from that other files use. */
@FunctionalInterface
public interface SourceLoader {

  /**
   * Reads a file.
   *
   * @param name its name, already resolved against the file that uses it, with {@code /} between its parts
   * @throws IOException where it cannot be read; the message is shown to the user
   */
  Source load(String name) throws IOException;

  /** A loader for texts that use no other file. */
  static SourceLoader none() {
    return name -> {
      throw new IOException("no other file can be used here");
    };
  }
}
