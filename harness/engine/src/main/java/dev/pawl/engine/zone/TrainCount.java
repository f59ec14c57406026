package dev.pawl.engine.zone;

/** The least and the most trains that can be in a zone, as its flags count them in and out. */
final class TrainCount {

  private final int holds;
  private int least;
  private int most;
  private int limit;

  TrainCount(int holds, int least, int most) {
    this.holds = holds;
    this.least = least;
    this.most = most;
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
    least = fits ? least + 1 : holds;
    most = fits ? Math.min(most + 1, holds) : holds + 1;
    limit = Math.max(limit, most);
    return fits;
  }

  /** Counts one train out; false if the zone was empty. */
  boolean out() {
    boolean there = most > 0;
    least = there ? Math.max(least - 1, 0) : 0;
    most = there ? most - 1 : holds - 1;
    return there;
  }

  /** Begins a moment at which trains may have come or gone: until {@link #settle} the bounds may run past none and past what the zone holds. */
  void loosen() {
    limit = Math.max(most, holds);
  }

  void possiblyIn() {
    most++;
  }

  void possiblyOut() {
    least--;
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
