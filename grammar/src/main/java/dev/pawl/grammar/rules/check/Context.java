package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.source.Diagnostics;
/** What the checkers of one compilation share. */
final class Context {

  /**
   * Recursion of the checker over expressions and the definitions in them; keeps hostile files from exhausting the
   * stack.
   */
  private static final int DEEPEST_RECURSION = 700;

  final Diagnostics problems;
  final Names names;
  final TypeResolver types;
  final Definitions definitions;
  private int recursion;

  Context(Diagnostics problems) {
    this.problems = problems;
    this.names = new Names(problems);
    this.types = new TypeResolver(names, problems);
    this.definitions = new Definitions(this);
  }

  /** Goes one level deeper; false where that is too deep. */
  boolean enter() {
    recursion++;
    return recursion <= DEEPEST_RECURSION;
  }

  void leave() {
    recursion--;
  }
}
