package dev.pawl.grammar.rules.format;

import java.util.List;

/** Writes rows, with the cells and comments of each block in columns. */
final class RowWriter {

  /** Comments behind code stand in this column (from 0), or one blank behind longer code. */
  private static final int COMMENT_COLUMN = 40;

  private final StringBuilder text = new StringBuilder();

  String write(List<Row> rows, List<String> lastComments) {
    int start = 0;
    for (int end = 1; end <= rows.size(); end++) {
      if (end == rows.size() || !continues(rows.get(end - 1), rows.get(end))) {
        block(rows.subList(start, end));
        start = end;
      }
    }
    if (!rows.isEmpty() && !lastComments.isEmpty()) {
      text.append('\n');
    }
    lastComments.forEach(comment -> text.append(comment).append('\n'));
    return text.toString();
  }

  private static boolean continues(Row before, Row row) {
    return !row.block.isEmpty() && row.block.equals(before.block) && !row.apart && row.leading.isEmpty();
  }

  private void block(List<Row> rows) {
    List<String> lines = columns(rows, true);
    if (lines.stream().anyMatch(line -> line.length() > RowBuilder.WIDTH)) {
      lines = columns(rows, false);
    }
    int column = COMMENT_COLUMN;
    for (int i = 0; i < rows.size(); i++) {
      if (!rows.get(i).trailing.isEmpty() && rows.get(i).continuation.isEmpty()) {
        column = Math.max(column, lines.get(i).length() + 1);
      }
    }
    for (int i = 0; i < rows.size(); i++) {
      write(rows.get(i), lines.get(i), column);
    }
  }

  private static List<String> columns(List<Row> rows, boolean aligned) {
    int cells = rows.stream().mapToInt(row -> row.cells.size()).max().orElse(0);
    int[] widths = new int[cells];
    for (Row row : rows) {
      for (int i = 0; i < row.cells.size() - 1; i++) {
        widths[i] = aligned ? Math.max(widths[i], row.cells.get(i).length()) : 0;
      }
    }
    return rows.stream().map(row -> line(row, widths)).toList();
  }

  private static String line(Row row, int[] widths) {
    StringBuilder line = new StringBuilder(" ".repeat(row.indent));
    for (int i = 0; i < row.cells.size(); i++) {
      String cell = row.cells.get(i);
      boolean last = i == row.cells.size() - 1;
      line.append(cell).append(last ? "" : " ".repeat(Math.max(0, widths[i] - cell.length()) + 1));
    }
    return line.toString();
  }

  private void write(Row row, String line, int column) {
    if (row.apart && !text.isEmpty()) {
      text.append('\n');
    }
    row.leading.forEach(comment -> text.append(comment.isEmpty() ? "" : " ".repeat(row.indent) + comment).append('\n'));
    text.append(line);
    if (!row.trailing.isEmpty()) {
      text.append(" ".repeat(Math.max(1, column - line.length()))).append(row.trailing);
    }
    text.append('\n');
    row.continuation.forEach(more -> text.append(more).append('\n'));
  }
}
