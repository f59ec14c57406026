package dev.pawl.plant.motion;

/** One train: what it is, and on which way it is. Where it is, its body says. */
public final class Train {

  private final String name;
  private final Kind kind;
  final int index;
  Route route;
  /** Number of the siding it is on, or 0. */
  int track;
  Body body;
  /** Where its nose was when its body's motion began. */
  double base;

  /**
   * What a train is like.
   *
   * @param length metres, nose to tail
   * @param mass kilograms, loaded
   * @param rolling resisting force over weight across the track
   * @param dragArea square metres: drag coefficient times frontal area
   * @param dog metres from the nose back to the dog that chains and anti-rollbacks take hold of
   * @param target metres of each target that flags see, the first at the nose
   * @param gap metres between targets
   */
  public record Kind(double length, double mass, double rolling, double dragArea, double dog, double target,
      double gap) {

    /** A train whose flags see all of it. */
    public Kind(double length, double mass, double rolling, double dragArea, double dog) {
      this(length, mass, rolling, dragArea, dog, length, 0);
    }
  }

  Train(String name, Kind kind, int index) {
    this.name = name;
    this.kind = kind;
    this.index = index;
  }

  public String name() {
    return name;
  }

  public Kind kind() {
    return kind;
  }

  public int index() {
    return index;
  }

  /** Metres that its nose is along its route, counting laps. */
  public double nose(double time) {
    return base + body.moved(time);
  }

  /** Metres per second, forward positive. */
  public double speed(double time) {
    return body.speed(time);
  }

  /** The siding it is on, or 0. */
  public int track() {
    return track;
  }
}
