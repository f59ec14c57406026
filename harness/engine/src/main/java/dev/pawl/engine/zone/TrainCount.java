package dev.pawl.engine.zone;

/** The least and the most trains that can be in a zone, as its flags count them in and out. */
final class TrainCount {

  private final int holds;
  private int least;
  private int most;
  private int limit;
  private boolean doubtful;

  /** Of a zone of which nothing is known. */
  TrainCount(int holds) {
    this.holds = holds;
    forget();
  }

  /** That many are in it. */
  void start(int trains) {
    least = trains;
    most = trains;
  }

  int least() {
    return least;
  }

  int most() {
    return most;
  }

  /** Counts one train in; false if the zone was full. */
  boolean in() {
    boolean fits = least < holds;
    doubtful |= fits && most >= holds;
    least = fits ? least + 1 : holds;
    most = fits ? Math.min(most + 1, holds) : holds + 1;
    limit = Math.max(limit, most);
    return fits;
  }

  /** Counts one train out; false if the zone was empty. */
  boolean out() {
    boolean there = most > 0;
    doubtful |= there && least <= 0;
    least = there ? Math.max(least - 1, 0) : 0;
    most = there ? most - 1 : holds - 1;
    return there;
  }

  /**
   * Begins a moment at which trains may have come or gone: until {@link #settle} the bounds may run past none and past
   * what the zone holds.
   */
  void loosen() {
    limit = Math.max(most, holds);
    doubtful = false;
  }

  /** Whether a train was counted at this moment that may have found the zone full, or empty. */
  boolean isDoubtful() {
    return doubtful;
  }

  void possiblyIn() {
    most = limit + 1;
  }

  void possiblyOut() {
    least = -1;
  }

  void settle() {
    least = Math.max(least, 0);
    most = Math.min(most, limit);
  }

  void forget() {
    least = 0;
    most = holds;
  }
}
