package dev.pawl.grammar.rules.format;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;

/** One line of the layout to come, before neighbours are aligned; a few have continuation lines. */
final class Row {

  /** Where in the source its first word stands. */
  final Position position;

  final int indent;

  /** Rows of one block that follow each other directly have their cells in columns. */
  final String block;

  final List<String> cells;

  /** Further lines, with their own indentation. */
  final List<String> continuation;

  /** Comments on lines of their own before this one. */
  final List<String> leading = new ArrayList<>();

  /** Whether an empty line comes before this row and its comments. */
  boolean apart;

  /** Whether the source has an empty line just before this row. */
  boolean gap;

  /** The comment behind it, or the empty string. */
  String trailing = "";

  Row(Position position, int indent, String block, List<String> cells, List<String> continuation) {
    this.position = position;
    this.indent = indent;
    this.block = block;
    this.cells = cells;
    this.continuation = continuation;
  }

  Row apart(boolean wanted) {
    apart |= wanted;
    return this;
  }
}
