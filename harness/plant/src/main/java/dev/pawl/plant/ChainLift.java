package dev.pawl.plant;

/** A chain that pushes a train's dog uphill, with the rack of teeth that catches the train if it rolls back. */
public final class ChainLift {

  private final Stretch stretch;
  private final Stretch rack;
  private final double pitch;
  private final double ramp;
  private boolean running;
  private double reference;
  private double speed;
  private double load;
  private boolean holdsTrain = true;
  private boolean rackCatches = true;

  /**
   * Builds a lift at rest.
   *
   * @param stretch where the chain runs
   * @param rack where the anti-rollback has teeth
   * @param pitch metres from tooth to tooth, the most a train can roll back
   * @param ramp metres per second squared by which the drive changes the chain's speed
   */
  public ChainLift(Stretch stretch, Stretch rack, double pitch, double ramp) {
    this.stretch = stretch;
    this.rack = rack;
    this.pitch = pitch;
    this.ramp = ramp;
  }

  /** Commands the drive; without {@code run} the chain ramps to rest and its holding brake closes. */
  public void command(boolean run, double metresPerSecond) {
    running = run;
    reference = metresPerSecond;
  }

  /** A fault: the dog rides over the chain instead of holding. */
  public void letGo(boolean fault) {
    holdsTrain = !fault;
  }

  /** A fault: the anti-rollback fails to drop into its teeth. */
  public void jamRack(boolean fault) {
    rackCatches = !fault;
  }

  /** Chain speed in metres per second. */
  public double speed() {
    return speed;
  }

  /** Mechanical power in watts that the chain gives trains. */
  public double power() {
    return load * speed;
  }

  void step(double seconds) {
    double target = running ? reference : 0;
    double change = ramp * seconds;
    speed = target > speed ? Math.min(target, speed + change) : Math.max(target, speed - change);
    load = 0;
  }

  /** The velocity of a train at the end of a step in which it would else have {@code free}. */
  double push(Train train, double free, double seconds, TrackProfile track) {
    if (!holdsTrain || free >= speed || !stretch.contains(train.dog(track), track.length())) {
      return free;
    }
    load += train.kind().mass() * (speed - free) / seconds;
    return speed;
  }

  /** The furthest back that a train's nose can come, given where it was; negative infinity where nothing catches it. */
  double stop(Train train, TrackProfile track) {
    double dog = train.dog(track);
    if (!rackCatches || !rack.contains(dog, track.length())) {
      return Double.NEGATIVE_INFINITY;
    }
    return train.nose() - (dog - rack.from()) % pitch;
  }
}
