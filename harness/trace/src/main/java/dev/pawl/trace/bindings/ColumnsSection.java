package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.nio.charset.Charset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Reads the section {@code columns} of a bindings file: what columns are called, and where and how the table is
 * written.
 */
final class ColumnsSection {

  private static final List<String> WORDS =
      List.of("time", "signal", "value", "quality", "separator", "decimal", "header", "rows", "unnamed", "names",
          "spaces", "letters");
  private static final Map<String, Character> SEPARATORS =
      Map.of("comma", ',', ",", ',', "semicolon", ';', ";", ';', "tab", '\t', "bar", '|', "|", '|');
  private static final Map<String, Character> POINTS = Map.of("point", '.', ".", '.', "comma", ',', ",", ',');

  private final List<Diagnostic> diagnostics;
  private final Map<String, List<Token>> stated = new HashMap<>();

  ColumnsSection(List<Diagnostic> diagnostics) {
    this.diagnostics = diagnostics;
  }

  Columns read(List<Entry> entries) {
    entries.forEach(this::note);
    char separator = choice("separator", SEPARATORS, ',', "cannot separate fields",
        "write: separator comma, semicolon, tab or bar");
    char point = choice("decimal", POINTS, '.', "is no decimal sign", "write: decimal comma, or: decimal point");
    return new Columns(name("time", 0), name("time", 1), name("signal", 0), name("value", 0), name("quality", 0),
        separator, point, letters(), spaces(), table());
  }

  private void note(Entry entry) {
    List<Token> tokens = entry.tokens();
    String word = tokens.get(0).text();
    int most = word.equals("names") ? Integer.MAX_VALUE : word.equals("time") || word.equals("header")
        || word.equals("rows") ? 3 : 2;
    if (!WORDS.contains(word) || tokens.size() < 2 || tokens.size() > most) {
      error(entry.position(), "section 'columns' says what a column is called, and how the table is written",
          "write one of time, signal, value or quality and its name, such as: time stamp; or one of separator, "
              + "decimal, header,"
              + " rows from, unnamed, names, spaces and letters");
    } else if (stated.putIfAbsent(word, tokens) != null) {
      error(entry.position(), "'" + word + "' is stated twice", "keep one");
    }
  }

  private Optional<String> name(String role, int place) {
    List<Token> tokens = stated.getOrDefault(role, List.of());
    return place + 1 < tokens.size() ? Optional.of(tokens.get(place + 1).text()) : Optional.empty();
  }

  private char choice(String word, Map<String, Character> choices, char usual, String complaint, String hint) {
    List<Token> tokens = stated.getOrDefault(word, List.of());
    if (tokens.isEmpty()) {
      return usual;
    }
    Character chosen = choices.get(tokens.get(1).text());
    if (chosen == null) {
      error(tokens.get(1).position(), "'" + tokens.get(1).text() + "' " + complaint, hint);
      return usual;
    }
    return chosen;
  }

  private Optional<Charset> letters() {
    List<Token> tokens = stated.getOrDefault("letters", List.of());
    if (tokens.isEmpty()) {
      return Optional.empty();
    }
    try {
      Charset charset = Charset.forName(tokens.get(1).text());
      if (charset.canEncode() && charset.newEncoder().maxBytesPerChar() == 1) {
        return Optional.of(charset);
      }
    } catch (IllegalArgumentException e) {
      // Told below.
    }
    error(tokens.get(1).position(), "'" + tokens.get(1).text() + "' is no set of letters of one byte each",
        "write one such as windows-1252; UTF-8 and UTF-16 need not be stated");
    return Optional.empty();
  }

  private boolean spaces() {
    List<Token> tokens = stated.getOrDefault("spaces", List.of());
    if (!tokens.isEmpty() && !tokens.get(1).is("dropped")) {
      error(tokens.get(1).position(), "'" + tokens.get(1).text()
          + "' is nothing that can be done with spaces around fields", "write: spaces dropped");
    }
    return tokens.isEmpty();
  }

  private Columns.Table table() {
    List<Token> header = stated.getOrDefault("header", List.of());
    boolean none = header.size() == 2 && header.get(1).is("none");
    long headerLine = header.isEmpty() || none ? 0 : line(header, "line", "write: header line 7, or: header none");
    List<Token> rows = stated.getOrDefault("rows", List.of());
    long firstRow = rows.isEmpty() ? 0 : line(rows, "from", "write: rows from 9, where 9 is the line of the first row");
    if (firstRow > 0 && firstRow <= headerLine) {
      error(rows.get(2).position(), "rows cannot start before the header, which is stated as line " + headerLine,
          "state the line of the first row");
    }
    List<Token> unnamed = stated.getOrDefault("unnamed", List.of());
    Columns.Unnamed field = unnamed.isEmpty() ? Columns.Unnamed.NONE
        : unnamed.get(1).is("first") ? Columns.Unnamed.FIRST : Columns.Unnamed.LAST;
    if (field == Columns.Unnamed.LAST && !unnamed.get(1).is("last")) {
      error(unnamed.get(1).position(), "'" + unnamed.get(1).text() + "' does not say where the unnamed field stands",
          "write: unnamed first, or: unnamed last");
    }
    List<Token> names = stated.getOrDefault("names", List.of());
    if (!names.isEmpty() && !none) {
      error(names.get(0).position(), "names are for a table without a header", "add: header none");
    }
    return new Columns.Table(!none, names.stream().skip(1).filter(name -> !name.is(",")).map(Token::text).toList(),
        headerLine, firstRow, field);
  }

  private long line(List<Token> tokens, String word, String hint) {
    boolean sound = tokens.size() == 3 && tokens.get(1).is(word) && tokens.get(2).text().matches("[1-9][0-9]{0,8}");
    if (!sound) {
      error(tokens.get(0).position(), "this does not say where the table begins", hint);
    }
    return sound ? Long.parseLong(tokens.get(2).text()) : 0;
  }

  private void error(Position position, String message, String hint) {
    diagnostics.add(Diagnostic.error(position, message, hint));
  }
}
