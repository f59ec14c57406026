package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.Feed;
import dev.pawl.trace.bytes.Words;

/**
 * The fields of a row without quotes. An empty field after the last separator may be one too many. Like
 * {@link OrdinaryRow} it finds nothing in any other row.
 */
final class PlainRow {

  private static final long LINE_FEEDS = Words.repeat('\n');
  private static final long QUOTES = Words.repeat('"');
  private final int columns;
  private final byte separator;
  private final long separators;
  private final boolean spaces;
  private final int[] starts;
  private final int[] stops;

  PlainRow(int columns, char separator, boolean spaces) {
    this.spaces = spaces;
    this.columns = columns;
    this.separator = (byte) separator;
    this.separators = Words.repeat(separator);
    this.starts = new int[columns];
    this.stops = new int[columns];
  }

  int start(int column) {
    return starts[column];
  }

  int stop(int column) {
    return stops[column];
  }

  boolean isEmpty(int column) {
    return starts[column] == stops[column];
  }

  /**
   * Finds the fields.
   *
   * @param row where the row starts
   * @param first the first column that is looked for
   * @param from where it starts
   * @return the start of the next row, or -1 if this one is not plain
   */
  int split(byte[] bytes, int row, int first, int from) {
    int column = first;
    int start = from;
    for (int at = from; at - row < Feed.LONGEST; at += 8) {
      long word = Words.at(bytes, at);
      long marks = Words.all(word, separators) | Words.all(word, LINE_FEEDS) | Words.all(word, QUOTES);
      for (; marks != 0; marks &= marks - 1) {
        int place = at + Words.first(marks);
        if (bytes[place] != separator || column == columns) {
          return bytes[place] == '\n' ? ended(bytes, column, start, place) : -1;
        }
        starts[column] = start;
        stops[column++] = place;
        start = place + 1;
      }
    }
    return -1;
  }

  /** The line has come to its end within the given column, or behind the last. */
  private int ended(byte[] bytes, int column, int start, int place) {
    int stop = place > start && bytes[place - 1] == '\r' ? place - 1 : place;
    if (column == columns) {
      if (!spaces) {
        drop(bytes);
      }
      return stop == start ? place + 1 : -1;
    }
    starts[column] = start;
    stops[column] = stop;
    if (!spaces) {
      drop(bytes);
    }
    return column == columns - 1 ? place + 1 : -1;
  }

  private void drop(byte[] bytes) {
    for (int column = 0; column < columns; column++) {
      int stop = Fields.beforeSpaces(bytes, starts[column], stops[column]);
      starts[column] = Math.min(stop, Fields.afterSpaces(bytes, starts[column]));
      stops[column] = stop;
    }
  }
}
