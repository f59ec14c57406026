package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.words.FindingWords;
import java.util.List;

/**
 * The mark of a verdict: a ratchet tooth, and the word. Whole: held. Split: broken. Half filled: undecided. Dashed
 * outline: not exercised. The word always stands beside it, so that neither shape nor colour has to be told apart.
 */
final class VerdictMark {

  /** The verdicts in the order in which they want attention. */
  static final List<Verdict> ORDER = List.of(Verdict.BROKEN, Verdict.UNDECIDED, Verdict.NOT_EXERCISED, Verdict.HELD);

  private static final String TOOTH = "M2 16 L16 16 L16 2 Z";

  private VerdictMark() {}

  static void write(Markup html, Verdict verdict) {
    html.open("span", "class", "verdict " + verdict.label());
    shape(html, verdict);
    html.text(FindingWords.verdict(verdict)).close();
  }

  /** The mark alone, whose word only whoever does not see it gets. */
  static void writeBare(Markup html, Verdict verdict) {
    html.open("span", "class", "verdict " + verdict.label());
    shape(html, verdict);
    html.open("span", "class", "unshown").text(FindingWords.verdict(verdict) + " ").close().close();
  }

  private static void shape(Markup html, Verdict verdict) {
    html.open("svg", "class", "mark", "viewBox", "0 0 18 18", "width", "18", "height", "18", "aria-hidden", "true");
    switch (verdict) {
      case HELD -> html.lone("path", "class", "fill", "d", TOOTH);
      case BROKEN -> html.lone("path", "class", "fill", "d", "M0 17.5 L8.5 17.5 L7 13.5 L4 13.5 Z")
          .lone("path", "class", "fill", "d", "M11.5 15 L18 15 L18 0 L7.5 10.6 L10.4 11.4 Z");
      case UNDECIDED -> html.lone("path", "class", "line", "d", TOOTH).lone("path", "class", "fill", "d",
          "M10 16 L16 16 L16 2 L10 9 Z");
      case NOT_EXERCISED -> html.lone("path", "class", "line dashed", "d", TOOTH);
    }
    html.close();
  }
}
