package dev.pawl.grammar.rules.format;

import dev.pawl.grammar.rules.parse.ParsedFile;
import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.rules.tree.Comment;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The canonical layout of a rule file: one declaration or clause on a line, keywords of a rule in a column, neighbours
 * of one kind aligned, an empty line before each rule. Comments stay with what they stand beside or above; at most one
 * empty line is kept between declarations. Formatting what is formatted changes nothing, and the formatted file means
 * the same.
 */
public final class RuleFormatter {

  private final String[] lines;
  private final List<Row> rows;
  private final List<String> lastComments = new ArrayList<>();

  private RuleFormatter(RuleFile file) {
    this.lines = file.source().text().split("\n", -1);
    RowBuilder builder = new RowBuilder();
    for (Declaration declaration : file.declarations()) {
      int first = builder.rows().size();
      builder.add(declaration);
      separate(builder.rows(), first);
    }
    this.rows = builder.rows();
    place(file.comments());
    rows.forEach(RuleFormatter::settleGap);
  }

  /** Formats a file, unless it cannot be read as a whole. */
  public static Formatted format(Source source) {
    ParsedFile parsed = RuleReader.read(source);
    if (!parsed.diagnostics().isEmpty()) {
      return new Formatted(Optional.empty(), parsed.diagnostics());
    }
    RuleFormatter formatter = new RuleFormatter(parsed.file());
    return new Formatted(Optional.of(new RowWriter().write(formatter.rows, formatter.lastComments)), List.of());
  }

  /** Keeps an empty line before a declaration, and sets one behind a rule or an example. */
  private void separate(List<Row> rows, int first) {
    Row row = rows.get(first);
    boolean behindRule = first > 0 && rows.get(first - 1).indent > 0 && !rows.get(first - 1).block.startsWith("group");
    row.apart(behindRule);
    row.gap = followsEmptyLine(row.position);
  }

  /** The empty line before a row goes between its comments and itself, or before it where it has none. */
  private static void settleGap(Row row) {
    if (row.leading.isEmpty()) {
      row.apart(row.gap);
    } else if (row.gap) {
      row.leading.add("");
    }
  }

  private boolean followsEmptyLine(Position position) {
    int before = position.line() - 2;
    return before >= 0 && lines[before].isBlank();
  }

  /** Gives each comment to the row beside which, or above which, it stands. */
  private void place(List<Comment> comments) {
    int next = 0;
    for (Comment comment : comments) {
      while (next < rows.size() && isBefore(rows.get(next).position, comment.position())) {
        next++;
      }
      if (!comment.alone() && next > 0) {
        Row row = rows.get(next - 1);
        row.trailing = row.trailing.isEmpty() ? comment.text() : row.trailing + " " + comment.text();
      } else {
        above(comment, next < rows.size() ? rows.get(next) : null);
      }
    }
  }

  private void above(Comment comment, Row row) {
    boolean empty = followsEmptyLine(comment.position());
    if (row == null) {
      if (empty && !lastComments.isEmpty()) {
        lastComments.add("");
      }
      lastComments.add(comment.text());
      return;
    }
    if (row.leading.isEmpty()) {
      row.apart(row.indent == 0 && empty);
    } else if (empty && row.indent == 0) {
      row.leading.add("");
    }
    row.leading.add(comment.text());
  }

  private static boolean isBefore(Position first, Position second) {
    return first.line() < second.line() || first.line() == second.line() && first.column() < second.column();
  }
}
