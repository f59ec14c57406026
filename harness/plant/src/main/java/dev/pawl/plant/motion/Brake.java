package dev.pawl.plant.motion;

/** A friction brake that stops trains, or a trim brake that takes them down to a speed and no further. */
public final class Brake extends ActuatedBrake {

  private final double friction;
  private final double speed;
  private double strength = 1;
  private boolean stuck;

  /**
   * Builds a brake at the end of its stroke.
   *
   * @param friction coefficient of friction that a train wholly inside meets, against its weight
   * @param speed metres per second down to which it slows; 0 to a stop
   * @param stroke seconds from fully open to fully closed and back; 0 for at once
   */
  public Brake(Stretch stretch, double friction, double speed, double stroke, boolean closed) {
    super(stretch, stroke, closed);
    this.friction = friction;
    this.speed = speed;
  }

  @Override
  boolean close(double time, boolean closed) {
    return !stuck && super.close(time, closed);
  }

  /** A fault: the share of its friction that is left. */
  public void weaken(double share) {
    strength = share;
  }

  /** A fault: seconds of its stroke. */
  public void slow(double seconds) {
    stroke(seconds);
  }

  /** A fault: it stays where it was sent last. */
  public void stick(boolean fault) {
    stuck = fault;
  }

  @Override
  boolean letsMove(double time) {
    return speed == 0 && !isClosed(time);
  }

  @Override
  void brake(Piece piece, double closed, double rate, double share, double gain) {
    piece.limited(speed, 0, speed == 0 ? 1 : 0, 1, friction * strength * Piece.GRAVITY, closed, rate, share, gain);
  }
}
