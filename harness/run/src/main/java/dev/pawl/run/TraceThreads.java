package dev.pawl.run;

import dev.pawl.grammar.rules.model.RuleBook;

/**
 * How many of the threads that may work do what for one large trace that is alone; several traces have a thread each
 * instead.
 *
 * @param judging threads that judge groups of rules, the one that reads among them
 * @param ahead whether one more takes rows apart ahead of their turn
 */
record TraceThreads(int judging, boolean ahead) {

  /** Handing an event over costs about as much as a few rules do. */
  private static final int RULES_FOR_A_THREAD = 10;

  /** For one large trace: a thread judges as long as there are enough rules for each; what is left decodes. */
  static TraceThreads of(int jobs, RuleBook book) {
    int judging = Math.max(1, Math.min(jobs, book.rules().size() / RULES_FOR_A_THREAD));
    return new TraceThreads(judging, jobs > judging);
  }
}
