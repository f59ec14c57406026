package dev.pawl.plant.layout;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The words of one line of a layout file, taken one after the other. */
final class StatementWords {

  private static final Pattern WORD = Pattern.compile("\\S+");
  private static final Pattern NUMBER = Pattern.compile("-?\\d{1,9}(\\.\\d{1,9})?");

  private final String file;
  private final int line;
  private final List<String> words = new ArrayList<>();
  private final List<Integer> columns = new ArrayList<>();
  private int next;

  StatementWords(String file, int line, String text) {
    this.file = file;
    this.line = line;
    int comment = text.indexOf("--");
    Matcher matcher = WORD.matcher(comment < 0 ? text : text.substring(0, comment));
    while (matcher.find()) {
      words.add(matcher.group());
      columns.add(matcher.start() + 1);
    }
  }

  boolean atEnd() {
    return next == words.size();
  }

  /** The place of the word taken last. */
  Position position() {
    return place(Math.max(0, next - 1));
  }

  String name(String what) {
    return take(what);
  }

  void word(String expected) {
    String found = take("'" + expected + "'");
    if (!found.equals(expected)) {
      throw new LayoutException(position(), "expected '" + expected + "', found '" + found + "'");
    }
  }

  /** A number after a word (none where that is empty) and before its unit (none where that is empty). */
  double quantity(String before, String unit) {
    if (!before.isEmpty()) {
      word(before);
    }
    String text = take("a number");
    if (!NUMBER.matcher(text).matches()) {
      throw new LayoutException(position(), "expected a number, found '" + text + "'");
    }
    double value = Double.parseDouble(text);
    if (!unit.isEmpty()) {
      word(unit);
    }
    return value;
  }

  void finish() {
    if (!atEnd()) {
      throw new LayoutException(place(next), "nothing more was expected on this line, found '" + words.get(next) + "'");
    }
  }

  private String take(String what) {
    if (atEnd()) {
      int end = columns.get(words.size() - 1) + words.get(words.size() - 1).length();
      throw new LayoutException(new Position(file, line, end, 1), "expected " + what + ", found the end of the line");
    }
    return words.get(next++);
  }

  private Position place(int index) {
    return new Position(file, line, columns.get(index), words.get(index).length());
  }
}
