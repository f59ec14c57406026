package dev.pawl.logic;

import java.util.List;
import java.util.Optional;

/**
 * A line of the program under test.
 *
 * @param file name of the source; empty where it is not known
 * @param line 1-based line
 */
public record ProgramLine(String file, int line) {

  /**
   * Events that the program causes carry their line in this form: negative, so that it cannot be taken for a line of
   * the trace.
   */
  static long encoded(int writer) {
    return -(long) writer;
  }

  /**
   * The line of the program that an event's line stands for; empty where it stands for a line of the trace, or for
   * none.
   */
  public static Optional<ProgramLine> decode(long line, List<String> files) {
    if (line >= 0) {
      return Optional.empty();
    }
    int file = (int) (-line >>> 24);
    return file < files.size() ? Optional.of(new ProgramLine(files.get(file), (int) (-line & 0xFFFFFF)))
        : Optional.empty();
  }

  @Override
  public String toString() {
    return file + ":" + line;
  }
}
