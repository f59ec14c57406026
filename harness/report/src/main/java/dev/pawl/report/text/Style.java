package dev.pawl.report.text;

import dev.pawl.engine.Verdict;
import dev.pawl.report.words.VerdictLook;

/**
 * How text is set.
 *
 * @param colour whether terminal colours may be used; words carry the meaning without them
 * @param width greatest number of columns, at least 60
 */
public record Style(boolean colour, int width) {

  public static final Style PLAIN = new Style(false, 100);

  public Style {
    width = Math.max(60, width);
  }

  String strong(String text) {
    return set("1", text);
  }

  String faint(String text) {
    return set("2", text);
  }

  String verdict(Verdict verdict, String text) {
    return set(VerdictLook.of(verdict).inTerminal(), text);
  }

  private String set(String code, String text) {
    return colour ? "\u001b[" + code + "m" + text + "\u001b[0m" : text;
  }
}
