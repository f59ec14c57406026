package dev.pawl.report.text;

import dev.pawl.grammar.rules.explain.Explanation;
import dev.pawl.grammar.source.Legible;

/** Explanations of rules as text. */
public final class ExplanationText {

  private ExplanationText() {}

  /** One rule's block, ending in an empty line. */
  public static String of(Explanation explanation, Style style) {
    Page page = new Page(style);
    page.line(style.strong(Legible.of(explanation.id())) + "  " + Legible.of(explanation.title()));
    page.labelled("written", explanation.text());
    list(page, "in words", explanation.words());
    page.labelled("formula", explanation.formula());
    page.labelled("final", explanation.decision());
    page.labelled("signals", String.join(", ", explanation.signals()));
    list(page, explanation.canBeExercised() ? "exercised" : "never", explanation.exercise());
    page.blank();
    return page.toString();
  }

  private static void list(Page page, String label, Iterable<String> lines) {
    String lead = label;
    for (String line : lines) {
      page.labelled(lead, line);
      lead = "";
    }
  }
}
