package dev.pawl.report.exercise;

import dev.pawl.grammar.rules.model.Rule;
import java.util.List;

/**
 * How far a rule has been put to the test.
 *
 * @param rule the rule
 * @param ways what has to happen for it, each at least once; empty where nothing can try it
 * @param tried whether that is done, or the rule is broken
 * @param remark what happened without showing anything, or why nothing can try it; empty where there is nothing to say
 */
public record Exercise(Rule rule, List<Way> ways, boolean tried, String remark) {

  public Exercise {
    ways = List.copyOf(ways);
  }

  /**
   * One thing that has to happen.
   *
   * @param words a clause
   * @param times how often it has
   */
  public record Way(String words, long times) {

    public boolean isDone() {
      return times > 0;
    }
  }

  /** Of how many rules all is done. */
  public static long tried(List<Exercise> board) {
    return board.stream().filter(Exercise::tried).count();
  }
}
