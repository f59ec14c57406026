package dev.pawl.plant.motion;

/**
 * A magnetic brake: slows by eddy currents, most at one speed and less above and below it, and holds nothing at rest.
 *
 * <p>The law is {@code 2 peak u / (1 + u^2)} with {@code u} the speed over that of the peak: the usual law of an eddy
 * current brake (from memory).
 */
public final class Magnets extends ActuatedBrake {

  private final double peak;
  private final double speed;

  /**
   * Builds a magnetic brake at the end of its stroke.
   *
   * @param peak the greatest deceleration of a train wholly inside, metres per second squared
   * @param speed at which it has that, metres per second
   * @param stroke seconds to move it in or out
   */
  public Magnets(Stretch stretch, double peak, double speed, double stroke, boolean closed) {
    super(stretch, stroke, closed);
    this.peak = peak;
    this.speed = speed;
  }

  @Override
  void brake(Piece piece, double closed, double rate, double share, double gain) {
    piece.eddy(peak, speed, closed, rate, share, gain);
  }
}
