package dev.pawl.trace.bindings;

import java.nio.charset.Charset;
import java.util.List;
import java.util.Optional;

/**
 * What the columns of a CSV trace, or the keys of a JSON one, are called where they are not called {@code time},
 * {@code signal}, {@code value} and {@code quality}, and how their fields are written.
 *
 * @param timeOfDay a second column of the time, where date and time of day stand in two
 * @param separator character between fields
 * @param point character before the decimals of numbers
 * @param letters how the text is written, where it is neither UTF-8 nor UTF-16
 * @param spaces whether spaces around a field belong to it
 * @param table where the table begins
 */
public record Columns(Optional<String> time, Optional<String> timeOfDay, Optional<String> signal,
    Optional<String> value, Optional<String> quality, char separator, char point, Optional<Charset> letters,
    boolean spaces, Table table) {

  public static final Columns DEFAULT = new Columns(Optional.empty(), Optional.empty(), Optional.empty(),
      Optional.empty(), Optional.empty(), ',', '.', Optional.empty(), true, Table.PLAIN);

  /** A field of each row that the header does not name. */
  public enum Unnamed {
    NONE,
    FIRST,
    LAST
  }

  /**
   * Where the table begins in its file.
   *
   * @param header whether it has a header
   * @param names what its columns are called, if it has none; by their numbers, from 1, if that is not stated
   * @param headerLine the line of the header; 0 if it is the first that is neither empty nor a remark
   * @param firstRow the line of the first row; what stands before it, but for the header, is left out; 0 if it follows
   * @param unnamed a field of each row that the header does not name
   */
  public record Table(boolean header, List<String> names, long headerLine, long firstRow, Unnamed unnamed) {

    public Table {
      names = List.copyOf(names);
    }

    /** A header, and rows from then on. */
    public static final Table PLAIN = new Table(true, List.of(), 0, 0, Unnamed.NONE);
  }
}
