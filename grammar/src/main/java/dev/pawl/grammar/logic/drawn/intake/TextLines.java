package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.drawn.xml.XmlNode;

/**
 * Structured Text whose lines end by elements such as {@code <br/>} and {@code <p>}, and not by lines of the file. So
 * that its words stay in the lines in which they are told of, such an end becomes a blank, and a remark that it ends is
 * taken out: it would go on over the words behind it.
 */
final class TextLines {

  private enum State { WORDS, TEXT, WIDE_TEXT, REMARK, OTHER_REMARK, LINE }

  private final StringBuilder text;
  private State state = State.WORDS;
  private int depth;
  private int start;

  private TextLines(String text) {
    this.text = new StringBuilder(text);
  }

  /** The text with blanks for the ends of lines that are none of the file. */
  static String joined(String text) {
    return text.indexOf(XmlNode.BREAK) < 0 ? text : new TextLines(text).joined();
  }

  private String joined() {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '\n' || c == XmlNode.BREAK) {
        end(i, c == XmlNode.BREAK);
      } else if (state == State.WORDS) {
        i = begin(i);
      } else {
        i = within(i);
      }
    }
    return text.toString();
  }

  private void end(int at, boolean taken) {
    if (state == State.LINE && taken) {
      for (int i = start; i < at; i++) {
        text.setCharAt(i, ' ');
      }
    }
    if (state != State.REMARK && state != State.OTHER_REMARK) {
      state = State.WORDS;
    }
    if (taken) {
      text.setCharAt(at, ' ');
    }
  }

  private boolean has(int at, String word) {
    return text.length() - at >= word.length() && text.charAt(at) == word.charAt(0)
        && (word.length() == 1 || text.charAt(at + 1) == word.charAt(1));
  }

  private int begin(int at) {
    State begun = has(at, "//") ? State.LINE : has(at, "(*") ? State.REMARK : has(at, "/*") ? State.OTHER_REMARK
        : has(at, "'") ? State.TEXT : has(at, "\"") ? State.WIDE_TEXT : State.WORDS;
    state = begun;
    start = at;
    depth = 1;
    return begun == State.LINE || begun == State.REMARK || begun == State.OTHER_REMARK ? at + 1 : at;
  }

  private int within(int at) {
    boolean remark = state == State.REMARK || state == State.OTHER_REMARK;
    String opens = state == State.REMARK ? "(*" : "/*";
    String closes = state == State.REMARK ? "*)" : "*/";
    if (remark && has(at, opens)) {
      depth++;
      return at + 1;
    }
    if (remark && has(at, closes)) {
      depth--;
      state = depth == 0 ? State.WORDS : state;
      return at + 1;
    }
    boolean quoted = state == State.TEXT || state == State.WIDE_TEXT;
    if (quoted && has(at, "$")) {
      return at + 1;
    }
    if (state == State.TEXT && has(at, "'") || state == State.WIDE_TEXT && has(at, "\"")) {
      state = State.WORDS;
    }
    return at;
  }
}
