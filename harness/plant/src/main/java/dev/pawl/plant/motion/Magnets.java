package dev.pawl.plant.motion;

/**
 * A magnetic brake: slows by eddy currents, most at one speed and less above and below it, and holds nothing at rest.
 *
 * <p>The law is {@code 2 peak u / (1 + u^2)} with {@code u} the speed over that of the peak: the usual law of an eddy
 * current brake (from memory).
 */
public final class Magnets extends Equipment {

  private final double peak;
  private final double speed;
  private final double stroke;
  private final Ramp engaged;

  /**
   * Builds a magnetic brake at the end of its stroke.
   *
   * @param peak the greatest deceleration of a train wholly inside, metres per second squared
   * @param speed at which it has that, metres per second
   * @param stroke seconds to move it in or out
   */
  public Magnets(Stretch stretch, double peak, double speed, double stroke, boolean closed) {
    super(stretch);
    this.peak = peak;
    this.speed = speed;
    this.stroke = stroke;
    engaged = new Ramp(closed ? 1 : 0);
  }

  boolean close(double time, boolean closed) {
    double target = closed ? 1 : 0;
    if (engaged.target() == target) {
      return false;
    }
    engaged.go(time, target, 1 / stroke);
    return true;
  }

  /** Whether it is wholly in. */
  public boolean isClosed(double time) {
    return engaged.at(time) >= 1;
  }

  /** Whether it is wholly out. */
  public boolean isOpen(double time) {
    return engaged.at(time) <= 0;
  }

  @Override
  double nextChange(double time) {
    return engaged.nextChange(time);
  }

  @Override
  void act(Piece piece, double time, double share, double gain) {
    double in = engaged.at(time);
    double rate = engaged.rateAt(time);
    if (in != 0 || rate != 0) {
      piece.eddy(peak, speed, in, rate, share, gain);
    }
  }
}
