package dev.pawl.run.stress;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A file of Structured Text as its words with their places; comments and blanks are none. */
final class ProgramWords {

  private static final Pattern WORD = Pattern.compile("(?s)\\(\\*.*?\\*\\)|//[^\n]*|\\{.*?\\}|\\s+"
      + "|(?<word>'[^'\n]*'|\"[^\"\n]*\"|[A-Za-z_]\\w*#[-+\\w.:]+|\\d[\\w.]*#[\\w.]+"
      + "|\\d[\\d_]*(?:\\.\\d[\\d_]*)?(?:[eE][-+]?\\d+)?|%?[A-Za-z_]\\w*|:=|=>|<=|>=|<>|\\*\\*|\\.\\.|.)");
  private static final Set<String> OPENS_STATEMENTS = Set.of("THEN", "ELSE", "DO", "REPEAT", "END_VAR", "OF");

  private final List<Word> words = new ArrayList<>();

  /**
   * A word.
   *
   * @param from its first character in the text
   * @param line counted from 1
   * @param statement number of the word with which its statement begins
   */
  record Word(String text, int from, int line, int statement) {

    int to() {
      return from + text.length();
    }

    String key() {
      return text.toUpperCase(Locale.ROOT);
    }

    boolean is(String... any) {
      for (String one : any) {
        if (key().equals(one)) {
          return true;
        }
      }
      return false;
    }

    boolean isName() {
      return text.matches("[A-Za-z_]\\w*");
    }
  }

  ProgramWords(String text) {
    Matcher matcher = WORD.matcher(text);
    int line = 1;
    int counted = 0;
    int statement = 0;
    boolean begins = true;
    while (matcher.find()) {
      for (; counted < matcher.start(); counted++) {
        line += text.charAt(counted) == '\n' ? 1 : 0;
      }
      if (matcher.group("word") != null) {
        statement = begins ? words.size() : statement;
        Word word = new Word(matcher.group(), matcher.start(), line, statement);
        words.add(word);
        begins = word.is(";") || OPENS_STATEMENTS.contains(word.key());
      }
    }
  }

  int size() {
    return words.size();
  }

  Word at(int index) {
    return words.get(index);
  }

  /** Whether the word at a place, if there is one, is one of these. */
  boolean is(int index, String... any) {
    return index >= 0 && index < words.size() && words.get(index).is(any);
  }

  /** The first of some words from a place on that stands in no bracket opened since; the end where there is none. */
  int next(int from, String... any) {
    int depth = 0;
    for (int i = from; i < words.size(); i++) {
      if (depth == 0 && is(i, any)) {
        return i;
      }
      depth += is(i, "(", "[") ? 1 : is(i, ")", "]") ? -1 : 0;
      if (depth < 0) {
        return i;
      }
    }
    return words.size();
  }

  /** The last of some words up to a place that stands in no bracket closed since; -1 where there is none. */
  int last(int to, String... any) {
    int depth = 0;
    for (int i = to; i >= 0; i--) {
      if (depth == 0 && is(i, any)) {
        return i;
      }
      depth += is(i, ")", "]") ? 1 : is(i, "(", "[") ? -1 : 0;
      if (depth < 0) {
        return i;
      }
    }
    return -1;
  }
}
