package dev.pawl.plant.text;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;

/**
 * A line that begins at the very start, with the indented lines under it.
 *
 * @param head the words of its first line, at least one
 * @param lines the words of each indented line
 */
public record Statement(List<Word> head, List<List<Word>> lines) {

  public Statement {
    head = List.copyOf(head);
    lines = List.copyOf(lines);
  }

  /** The word that says which kind of statement it is. */
  public Word keyword() {
    return head.get(0);
  }

  /** All words behind the keyword, as if they stood on one line. */
  public List<Word> words() {
    List<Word> words = new ArrayList<>(head.subList(1, head.size()));
    lines.forEach(words::addAll);
    return words;
  }

  /** The place just behind some words of a line. */
  public static Position behind(List<Word> words) {
    Position last = words.get(words.size() - 1).position();
    return new Position(last.file(), last.line(), last.column() + last.length(), 1);
  }
}
