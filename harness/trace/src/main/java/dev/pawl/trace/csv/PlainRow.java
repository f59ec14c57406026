package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.Feed;

/**
 * The fields of a row without quotes. An empty field after the last separator may be one too many. Like {@link OrdinaryRow}
 * it finds nothing in any other row.
 */
final class PlainRow {

  private final int columns;
  private final byte separator;
  private final int[] starts;
  private final int[] stops;

  PlainRow(int columns, char separator) {
    this.columns = columns;
    this.separator = (byte) separator;
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
    int at = from - 1;
    for (int column = first; column < columns; column++) {
      if (column > first && bytes[at] == '\n') {
        return -1;
      }
      int start = at + 1;
      at = start;
      while (bytes[at] != separator && bytes[at] != '\n' && bytes[at] != '"') {
        at++;
      }
      if (bytes[at] == '"') {
        return -1;
      }
      starts[column] = start;
      stops[column] = at;
    }
    if (bytes[at] != '\n') {
      at += bytes[at + 1] == '\r' ? 2 : 1;
      if (bytes[at] != '\n') {
        return -1;
      }
    } else if (bytes[at - 1] == '\r' && at > starts[columns - 1]) {
      stops[columns - 1]--;
    }
    return at - row >= Feed.LONGEST ? -1 : at + 1;
  }
}
