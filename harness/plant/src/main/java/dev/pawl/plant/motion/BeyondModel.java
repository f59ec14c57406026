package dev.pawl.plant.motion;

/** What the model cannot represent has come about; what follows would be made up. */
public final class BeyondModel extends RuntimeException {

  private final double time;

  BeyondModel(double time, String message) {
    super(message, null, false, false);
    this.time = time;
  }

  /** When, in seconds. */
  public double time() {
    return time;
  }
}
