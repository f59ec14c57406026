package dev.pawl.plant.motion;

/** Driven tyres that bring a train to a set speed and hold it there; at rest they turn freely. */
public final class Tyres extends Equipment {

  private final double speed;
  private final double acceleration;
  private double driven;
  private boolean stuck;
  private boolean welded;
  private boolean dead;

  /**
   * Builds a drive at rest.
   *
   * @param speed metres per second
   * @param acceleration metres per second squared that it can give a train wholly on it, either way
   */
  public Tyres(Stretch stretch, double speed, double acceleration) {
    super(stretch);
    this.speed = speed;
    this.acceleration = acceleration;
  }

  /** Drives forward, backward or not at all; whether that is anything new. */
  boolean drive(int direction) {
    double wanted = dead ? 0 : welded && direction == 0 ? driven : direction * speed;
    if (stuck || driven == wanted) {
      return false;
    }
    driven = wanted;
    return true;
  }

  /** A fault: it goes on as it was commanded last. */
  public void stick(boolean fault) {
    stuck = fault;
  }

  /** A fault: its contactor is welded, so that tyres which turn go on. */
  public void weld(boolean fault) {
    welded = fault;
  }

  /** A fault: their drive has no power. */
  public void starve(boolean fault) {
    dead = fault;
  }

  /** The speed it turns at, metres per second. */
  public double speed() {
    return driven;
  }

  @Override
  boolean letsMove(double time) {
    return driven != 0;
  }

  @Override
  void act(Piece piece, double time, double share, double gain) {
    if (driven != 0) {
      piece.limited(driven, 0, 1, 1, acceleration, 1, 0, share, gain);
    }
  }
}
