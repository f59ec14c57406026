package dev.pawl.plant.motion;

/** What can act on trains along a stretch of the track. */
public abstract class Equipment {

  private final Stretch stretch;
  private int bit;

  Equipment(Stretch stretch) {
    this.stretch = stretch;
  }

  final Stretch stretch() {
    return stretch;
  }

  final int bit() {
    return bit;
  }

  final void take(int number) {
    bit = number;
  }

  /** When it next begins or ceases to change; infinite where it does not. */
  double nextChange(double time) {
    return Double.POSITIVE_INFINITY;
  }

  /** Whether it drives trains that lie in it, or could stop them and does not. */
  boolean letsMove(double time) {
    return false;
  }

  /**
   * Adds what it does to a train.
   *
   * @param share of the train that lies in it
   * @param gain of that share for each metre on
   */
  abstract void act(Piece piece, double time, double share, double gain);
}
