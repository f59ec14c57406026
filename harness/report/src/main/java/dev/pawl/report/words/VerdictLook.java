package dev.pawl.report.words;

import dev.pawl.engine.Verdict;

/**
 * How a verdict is said and shown, the same in the report, on the live page and in a terminal. Word and mark carry it;
 * the colour only helps.
 */
public enum VerdictLook {
  BROKEN("broken", "#7d1d5c", "#ea9ccd", "1;35"),
  UNDECIDED("undecided", "#7a5200", "#e3bd6a", "1;33"),
  NOT_EXERCISED("not exercised", "#1f5f6b", "#83c8d4", "1;36"),
  HELD("held", "#3c4f78", "#a9b9e2", "34");

  private final String word;
  private final String onLight;
  private final String onDark;
  private final String inTerminal;

  VerdictLook(String word, String onLight, String onDark, String inTerminal) {
    this.word = word;
    this.onLight = onLight;
    this.onDark = onDark;
    this.inTerminal = inTerminal;
  }

  public static VerdictLook of(Verdict verdict) {
    return valueOf(verdict.name());
  }

  /** As a person says it. */
  public String word() {
    return word;
  }

  /** Its colour on light paper, as CSS has it. */
  public String onLight() {
    return onLight;
  }

  /** Its colour on a dark page, as CSS has it. */
  public String onDark() {
    return onDark;
  }

  /** The nearest that every terminal has: parameters of ECMA-48's SGR. */
  public String inTerminal() {
    return inTerminal;
  }
}
