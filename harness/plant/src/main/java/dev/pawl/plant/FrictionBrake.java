package dev.pawl.plant;

/** A friction brake that springs close and air holds open. */
public final class FrictionBrake {

  private final Stretch stretch;
  private final double friction;
  private final double strokeTime;
  private boolean commandedOpen;
  private double clamp = 1;

  /**
   * Builds a closed brake.
   *
   * @param stretch where it acts
   * @param friction coefficient of friction that a train wholly inside a closed brake meets, against its weight
   * @param strokeTime seconds from fully open to fully closed and back; 0 for at once
   */
  public FrictionBrake(Stretch stretch, double friction, double strokeTime) {
    this.stretch = stretch;
    this.friction = friction;
    this.strokeTime = strokeTime;
  }

  public void commandOpen(boolean open) {
    commandedOpen = open;
  }

  /** What the limit switch shows: fully closed. */
  public boolean closed() {
    return clamp >= 1;
  }

  void step(double seconds) {
    double travel = strokeTime > 0 ? seconds / strokeTime : 1;
    clamp = commandedOpen ? Math.max(0, clamp - travel) : Math.min(1, clamp + travel);
  }

  /** Deceleration, metres per second squared, of a train between the two places. */
  double deceleration(double tail, double nose, double trackLength) {
    return clamp == 0 ? 0 : clamp * friction * Plant.GRAVITY * stretch.coverage(tail, nose, trackLength);
  }
}
