package dev.pawl.plant.motion;

/** A friction brake that stops trains, or a trim brake that takes them down to a speed and no further. */
public final class Brake extends Equipment {

  private final double friction;
  private final double speed;
  private final Ramp clamp;
  private double stroke;
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
    super(stretch);
    this.friction = friction;
    this.speed = speed;
    this.stroke = stroke;
    clamp = new Ramp(closed ? 1 : 0);
  }

  /** Begins to close or to open; whether that is anything new. */
  boolean close(double time, boolean closed) {
    double target = closed ? 1 : 0;
    if (stuck || clamp.target() == target) {
      return false;
    }
    clamp.go(time, target, 1 / stroke);
    return true;
  }

  /** A fault: the share of its friction that is left. */
  public void weaken(double share) {
    strength = share;
  }

  /** A fault: seconds of its stroke. */
  public void slow(double seconds) {
    stroke = seconds;
  }

  double stroke() {
    return stroke;
  }

  /** A fault: it stays where it was sent last. */
  public void stick(boolean fault) {
    stuck = fault;
  }

  /** Whether its limit switch shows it fully closed. */
  public boolean isClosed(double time) {
    return clamp.at(time) >= 1;
  }

  /** Whether its limit switch shows it fully open. */
  public boolean isOpen(double time) {
    return clamp.at(time) <= 0;
  }

  @Override
  double nextChange(double time) {
    return clamp.nextChange(time);
  }

  @Override
  void act(Piece piece, double time, double share, double gain) {
    double shut = clamp.at(time);
    double rate = clamp.rateAt(time);
    if (shut != 0 || rate != 0) {
      piece.limited(speed, 0, speed == 0 ? 1 : 0, 1, friction * strength * Piece.GRAVITY, shut, rate, share, gain);
    }
  }
}
