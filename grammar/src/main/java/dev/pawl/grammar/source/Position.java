package dev.pawl.grammar.source;

/**
 * A stretch of one line of a source.
 *
 * @param file name of the source
 * @param line 1-based line
 * @param column 1-based column, counted in UTF-16 units
 * @param length number of columns the stretch covers, at least 1
 */
public record Position(String file, int line, int column, int length) {

  public static final Position NOWHERE = new Position("", 0, 0, 1);

  /** {@code file:line:column}, as every message starts. */
  @Override
  public String toString() {
    return file + ":" + line + ":" + column;
  }
}
