package dev.pawl.demo;

import java.util.List;

/**
 * One thing that happens on the demo ride. Times are scans of 10 ms from the trace's start.
 *
 * @param name file name of its trace, without extension
 * @param title what happens, in a sentence
 * @param scans how many scans it lasts
 * @param dispatches when the operator dispatches a train
 * @param script what else is done at the desk, in order
 * @param defects what is wrong with the logic
 * @param trouble what is wrong with the ride
 */
record Scenario(String name, String title, int scans, List<Integer> dispatches, List<Act> script, Defects defects,
    Trouble trouble) {

  /** The value of an act by which a signal is left to itself again. */
  static final double LET_GO = Double.NaN;

  /** A signal set by hand, and held there until the next act on it. */
  record Act(int scan, Tag tag, double value) {}

  /** What is wrong with the ride, at the third train that meets it where nothing else is said. */
  enum Trouble {
    NONE,
    /** The flag before the midcourse brake bounces as the train leaves it. */
    CHATTER,
    /** The chain lets the train go and the anti-rollback drops in late. */
    ROLL_BACK,
    /** The first train to reach the final brake stays over the flag at its entry until {@link #TAIL_FREE_SCAN}. */
    TAIL_OVER_FLAG
  }

  /** When the train that stands over the flag comes clear of it. */
  static final int TAIL_FREE_SCAN = 30_000;
}
