package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;

/**
 * The text form of a bindings file: a word at the start of a line opens a section, indented lines under it are its
 * entries, and so is what follows it on its line, {@code --} starts a comment. An entry is a list of words, of texts in
 * double quotes (a doubled quote stands for one), and of the symbols {@code =} and {@code ,}. An entry that begins with
 * {@code maybe} is a proposal, and an error until a person has confirmed it.
 *
 * @param source the text
 * @param sections all sections in order; a name may come more than once
 * @param diagnostics what is wrong with the form
 */
public record BindingsFile(Source source, List<Section> sections, List<Diagnostic> diagnostics) {

  /** What stands before an entry that was proposed by a look at a log, until a person takes it away. */
  public static final String PROPOSAL = "maybe";

  public BindingsFile {
    sections = List.copyOf(sections);
    diagnostics = List.copyOf(diagnostics);
  }

  /** A name as an entry writes it: in quotes unless it is a plain word. */
  public static String word(String name) {
    return name.matches("[A-Za-z_][A-Za-z0-9_.]*") ? name : "\"" + name.replace("\"", "\"\"") + "\"";
  }

  /** Reads a file's form. All errors are in {@link #diagnostics}. */
  public static BindingsFile parse(Source source) {
    return new Parser(source).parse();
  }

  /** The entries of all sections of the given name. */
  public List<Entry> entries(String section) {
    return sections.stream().filter(s -> s.name().equals(section)).flatMap(s -> s.entries().stream()).toList();
  }

  /** One pass over the lines. */
  private static final class Parser {

    private final Source source;
    private final List<Section> sections = new ArrayList<>();
    private final List<Diagnostic> diagnostics = new ArrayList<>();
    private Token heading;
    private List<Entry> entries = new ArrayList<>();

    Parser(Source source) {
      this.source = source;
    }

    BindingsFile parse() {
      String[] lines = source.text().split("\r\n|\n|\r", -1);
      for (int i = 0; i < lines.length; i++) {
        String line = i == 0 && lines[0].startsWith("\uFEFF") ? lines[0].substring(1) : lines[i];
        List<Token> tokens = tokens(line, i + 1);
        if (!tokens.isEmpty()) {
          take(tokens, Character.isWhitespace(line.charAt(0)));
        }
      }
      close();
      return new BindingsFile(source, sections, diagnostics);
    }

    private void take(List<Token> tokens, boolean indented) {
      Token proposal = tokens.get(indented ? 0 : Math.min(1, tokens.size() - 1));
      if (proposal.is(PROPOSAL)) {
        diagnostics.add(Diagnostic.error(proposal.position(), "this is a proposal that nobody has confirmed",
            "look whether it is right; then take the word '" + PROPOSAL + "' away, or the whole line"));
      }
      if (!indented) {
        close();
        heading = tokens.get(0);
        if (tokens.size() > 1 && !proposal.is(PROPOSAL)) {
          entries.add(new Entry(tokens.subList(1, tokens.size())));
        }
      } else if (heading == null) {
        diagnostics.add(Diagnostic.error(tokens.get(0).position(), "this entry belongs to no section",
            "open one above it, such as 'signals', at the very start of a line"));
      } else if (!proposal.is(PROPOSAL)) {
        entries.add(new Entry(tokens));
      }
    }

    private void close() {
      if (heading != null) {
        sections.add(new Section(heading.text(), heading.position(), entries));
        entries = new ArrayList<>();
      }
    }

    private List<Token> tokens(String line, int number) {
      List<Token> tokens = new ArrayList<>();
      int at = 0;
      while (at < line.length()) {
        char c = line.charAt(at);
        if (Character.isWhitespace(c)) {
          at++;
        } else if (line.startsWith("--", at)) {
          return tokens;
        } else if (c == '"') {
          at = quoted(line, number, at, tokens);
        } else {
          int end = c == '=' || c == ',' ? at + 1 : wordEnd(line, at);
          tokens.add(new Token(line.substring(at, end), false, position(number, at, end)));
          at = end;
        }
      }
      return tokens;
    }

    private static int wordEnd(String line, int from) {
      int at = from;
      while (at < line.length() && !Character.isWhitespace(line.charAt(at)) && "=,\"".indexOf(line.charAt(at)) < 0) {
        at++;
      }
      return at;
    }

    private int quoted(String line, int number, int from, List<Token> tokens) {
      StringBuilder text = new StringBuilder();
      int at = from + 1;
      while (at < line.length()) {
        char c = line.charAt(at);
        boolean doubled = c == '"' && at + 1 < line.length() && line.charAt(at + 1) == '"';
        if (c == '"' && !doubled) {
          tokens.add(new Token(text.toString(), true, position(number, from, at + 1)));
          return at + 1;
        }
        text.append(c);
        at += doubled ? 2 : 1;
      }
      diagnostics.add(Diagnostic.error(position(number, from, line.length()), "this quoted text has no end",
          "close it with \" on the same line"));
      tokens.add(new Token(text.toString(), true, position(number, from, line.length())));
      return line.length();
    }

    private Position position(int line, int from, int to) {
      return new Position(source.name(), line, from + 1, Math.max(1, to - from));
    }
  }
}
