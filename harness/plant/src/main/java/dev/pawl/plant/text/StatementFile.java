package dev.pawl.plant.text;

import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A text cut into statements: a line that begins at its very start is one, indented lines belong to it, {@code --}
 * starts a comment. Words are parted by blanks, {@code =} and {@code ,}; a number and its unit are two words, also
 * without a blank between them; double quotes hold a text together.
 */
public final class StatementFile {

  private static final Pattern WORD = Pattern.compile(
      "--.*|\"([^\"]*)\"|\"[^\"]*$|[=,]|\\d+(?:st|nd|rd|th)\\b|-?\\d+(?:\\.\\d+)?(?=[A-Za-z%])|[^\\s=,\"]+");

  private final Source source;
  private final Diagnostics diagnostics;
  private final List<Statement> statements = new ArrayList<>();
  private List<Word> head;
  private List<List<Word>> lines;

  private StatementFile(Source source, Diagnostics diagnostics) {
    this.source = source;
    this.diagnostics = diagnostics;
  }

  /** The statements of a text. */
  public static List<Statement> read(Source source, Diagnostics diagnostics) {
    return new StatementFile(source, diagnostics).read();
  }

  private List<Statement> read() {
    String[] texts = source.text().split("\r\n|\n|\r", -1);
    for (int i = 0; i < texts.length; i++) {
      boolean marked = i == 0 && texts[0].startsWith("\uFEFF");
      List<Word> words = words(marked ? texts[0].substring(1) : texts[i], i + 1);
      if (!words.isEmpty()) {
        take(words, Character.isWhitespace(texts[i].charAt(0)));
      }
    }
    close();
    return statements;
  }

  private void take(List<Word> words, boolean indented) {
    if (!indented) {
      close();
      head = words;
      lines = new ArrayList<>();
    } else if (head == null) {
      diagnostics.error(words.get(0).position(), "this indented line belongs to no statement",
          "begin the statement above it at the very start of a line");
    } else {
      lines.add(words);
    }
  }

  private void close() {
    if (head != null) {
      statements.add(new Statement(head, lines));
    }
  }

  private List<Word> words(String line, int number) {
    List<Word> words = new ArrayList<>();
    Matcher matcher = WORD.matcher(line);
    while (matcher.find()) {
      String text = matcher.group();
      if (text.startsWith("--")) {
        return words;
      }
      Position position = new Position(source.name(), number, matcher.start() + 1, text.length());
      boolean quoted = text.startsWith("\"");
      if (quoted && matcher.group(1) == null) {
        diagnostics.error(position, "this quoted text has no end", "close it with \" on the same line");
      }
      words.add(new Word(quoted ? text.replace("\"", "") : text, quoted, position));
    }
    return words;
  }
}
