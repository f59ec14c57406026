package dev.pawl.plant;

/** One train: where it is and how fast it goes. */
public final class Train {

  private final TrainKind kind;
  private double nose;
  private double velocity;

  /**
   * Puts a train on the track.
   *
   * @param nose metres along the track, counting laps
   * @param velocity metres per second, forward positive
   */
  public Train(TrainKind kind, double nose, double velocity) {
    this.kind = kind;
    this.nose = nose;
    this.velocity = velocity;
  }

  public TrainKind kind() {
    return kind;
  }

  public double nose() {
    return nose;
  }

  public double tail() {
    return nose - kind.length();
  }

  public double velocity() {
    return velocity;
  }

  /** Where its dog is, in metres within the lap. */
  double dog(TrackProfile track) {
    return track.wrap(nose - kind.dog());
  }

  void moveTo(double newNose, double newVelocity) {
    nose = newNose;
    velocity = newVelocity;
  }
}
