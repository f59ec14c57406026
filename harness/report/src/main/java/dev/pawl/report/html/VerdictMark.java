package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.words.FindingWords;

/**
 * The mark of a verdict: a ratchet tooth, and the word. Whole: held. Split: broken. Half filled: undecided. Dashed outline: not exercised.
 * The word always stands beside it, so that neither shape nor colour has to be told apart.
 */
final class VerdictMark {

  private static final String TOOTH = "M2 16 L16 16 L16 2 Z";

  private VerdictMark() {}

  static void write(Markup html, Verdict verdict) {
    html.open("span", "class", "verdict " + verdict.label());
    html.open("svg", "class", "mark", "viewBox", "0 0 18 18", "width", "18", "height", "18", "aria-hidden", "true");
    switch (verdict) {
      case HELD -> html.lone("path", "class", "fill", "d", TOOTH);
      case BROKEN -> html.lone("path", "class", "fill", "d", "M0 17 L7 17 L8.5 13 L4.2 13 Z")
          .lone("path", "class", "fill", "d", "M10 16 L18 16 L18 1 L8 11 L11.5 11.8 Z");
      case UNDECIDED -> html.lone("path", "class", "line", "d", TOOTH).lone("path", "class", "fill", "d", "M10 16 L16 16 L16 2 L10 9 Z");
      case NOT_EXERCISED -> html.lone("path", "class", "line dashed", "d", TOOTH);
    }
    html.close().text(FindingWords.verdict(verdict)).close();
  }
}
