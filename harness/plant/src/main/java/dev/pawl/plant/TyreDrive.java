package dev.pawl.plant;

/** Driven tyres that bring a train to a set speed and hold it there; at rest they turn freely. */
public final class TyreDrive {

  private final Stretch stretch;
  private final double speed;
  private final double acceleration;
  private boolean running;

  /**
   * Builds a drive at rest.
   *
   * @param stretch where it acts
   * @param speed metres per second, forward
   * @param acceleration metres per second squared that it can give a train wholly on it, either way
   */
  public TyreDrive(Stretch stretch, double speed, double acceleration) {
    this.stretch = stretch;
    this.speed = speed;
    this.acceleration = acceleration;
  }

  public void commandRun(boolean run) {
    running = run;
  }

  /**
   * Acceleration that the tyres give a train.
   *
   * @param velocity metres per second
   * @param others acceleration by everything else
   * @param seconds the step
   */
  double acceleration(Train train, double velocity, double others, double seconds, double trackLength) {
    if (!running) {
      return 0;
    }
    double reach = acceleration * stretch.coverage(train.tail(), train.nose(), trackLength);
    return Math.max(-reach, Math.min(reach, (speed - velocity) / seconds - others));
  }
}
