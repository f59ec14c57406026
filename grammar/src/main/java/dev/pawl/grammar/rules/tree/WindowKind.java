package dev.pawl.grammar.rules.tree;

/** What is taken of a number over a window. */
public enum WindowKind {
  MIN("min"),
  MAX("max"),
  MEAN("mean");

  private final String word;

  WindowKind(String word) {
    this.word = word;
  }

  public String word() {
    return word;
  }
}
