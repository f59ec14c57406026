package dev.pawl.plant.motion;

/** A brake that an actuator closes and opens in some time, its stroke; at an end of that at first. */
public abstract class ActuatedBrake extends Equipment {

  private final Ramp closing;
  private double stroke;

  ActuatedBrake(Stretch stretch, double stroke, boolean closed) {
    super(stretch);
    this.stroke = stroke;
    closing = new Ramp(closed ? 1 : 0);
  }

  /** Begins to close or to open; whether that is anything new. */
  boolean close(double time, boolean closed) {
    double target = closed ? 1 : 0;
    if (closing.target() == target) {
      return false;
    }
    closing.go(time, target, 1 / stroke);
    return true;
  }

  /** Takes another time for its stroke from the next one on, in seconds. */
  final void stroke(double seconds) {
    stroke = seconds;
  }

  /** Whether its limit switch shows it fully closed. */
  public final boolean isClosed(double time) {
    return closing.at(time) >= 1;
  }

  /** Whether its limit switch shows it fully open. */
  public final boolean isOpen(double time) {
    return closing.at(time) <= 0;
  }

  @Override
  final double nextChange(double time) {
    return closing.nextChange(time);
  }

  @Override
  final void act(Piece piece, double time, double share, double gain) {
    double closed = closing.at(time);
    double rate = closing.rateAt(time);
    if (closed != 0 || rate != 0) {
      brake(piece, closed, rate, share, gain);
    }
  }

  /** What it does to a train while it is closed by a share of its stroke, which grows at a rate a second. */
  abstract void brake(Piece piece, double closed, double rate, double share, double gain);
}
