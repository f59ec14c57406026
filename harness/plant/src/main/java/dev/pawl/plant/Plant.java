package dev.pawl.plant;

import java.util.List;
import java.util.Optional;

/**
 * A track with its equipment and trains, moved on step by step.
 *
 * <p>Each train's mass lies evenly along its length, so gravity pulls by the difference in height between nose and
 * tail. Gravity is taken half-way through the step and position advances with the mean velocity: exact on a uniform
 * slope, and a stop within a step ends at its exact place.
 */
public final class Plant {

  /** Standard gravity as schools round it, metres per second squared. */
  public static final double GRAVITY = 9.81;

  private static final double AIR_DENSITY = 1.2;

  private final TrackProfile track;
  private final List<Train> trains;
  private final List<FrictionBrake> brakes;
  private final List<TyreDrive> drives;
  private final Optional<ChainLift> lift;

  public Plant(TrackProfile track, List<Train> trains, List<FrictionBrake> brakes, List<TyreDrive> drives,
      Optional<ChainLift> lift) {
    this.track = track;
    this.trains = List.copyOf(trains);
    this.brakes = List.copyOf(brakes);
    this.drives = List.copyOf(drives);
    this.lift = lift;
  }

  public List<Train> trains() {
    return trains;
  }

  /** Whether any train covers a place, in metres within the lap. */
  public boolean covered(double place) {
    for (Train train : trains) {
      if (track.wrap(place - train.tail()) < train.kind().length()) {
        return true;
      }
    }
    return false;
  }

  /**
   * The smallest gap in metres between the nose of a train and the tail of the one ahead; negative when they overlap.
   */
  public double smallestGap() {
    double smallest = Double.POSITIVE_INFINITY;
    for (Train behind : trains) {
      for (Train ahead : trains) {
        if (behind != ahead) {
          smallest = Math.min(smallest, track.wrap(ahead.nose() - behind.nose()) - ahead.kind().length());
        }
      }
    }
    return smallest;
  }

  /** Moves everything on by a number of seconds. */
  public void step(double seconds) {
    brakes.forEach(brake -> brake.step(seconds));
    lift.ifPresent(chain -> chain.step(seconds));
    for (Train train : trains) {
      move(train, seconds);
    }
  }

  private void move(Train train, double seconds) {
    double before = train.velocity();
    double grade = track.grade(train.nose() + before * seconds / 2, train.kind().length());
    double resistance = resistance(train, grade);
    double pull = pull(train, grade);
    for (TyreDrive drive : drives) {
      pull += drive.acceleration(train, before, net(before, pull, resistance), seconds, track.length());
    }
    double acceleration = net(before, pull, resistance);
    double after = before + acceleration * seconds;
    boolean stops = before != 0 && Math.signum(after) == -Math.signum(before);
    double free = stops ? 0 : after;
    double velocity = lift.isPresent() ? lift.get().push(train, free, seconds, track) : free;
    double distance = stops && velocity == 0 ? before * Math.abs(before) / (2 * Math.abs(acceleration))
        : (before + velocity) / 2 * seconds;
    settle(train, train.nose() + distance, velocity);
  }

  private void settle(Train train, double nose, double velocity) {
    double stop = velocity < 0 && lift.isPresent() ? lift.get().stop(train, track) : Double.NEGATIVE_INFINITY;
    if (nose < stop) {
      train.moveTo(stop, 0);
    } else {
      train.moveTo(nose, velocity);
    }
  }

  /** Acceleration by gravity and air. */
  private static double pull(Train train, double grade) {
    double drag = AIR_DENSITY * train.kind().dragArea() / 2 * train.velocity() * Math.abs(train.velocity());
    return -GRAVITY * grade - drag / train.kind().mass();
  }

  /** The most by which rolling resistance and brakes can slow a train. */
  private double resistance(Train train, double grade) {
    double sum = GRAVITY * train.kind().rollingResistance() * Math.sqrt(Math.max(0, 1 - grade * grade));
    for (FrictionBrake brake : brakes) {
      sum += brake.deceleration(train.tail(), train.nose(), track.length());
    }
    return sum;
  }

  /** What is left of a pull where resistance opposes the motion, or holds a train at rest back. */
  private static double net(double velocity, double pull, double resistance) {
    return velocity == 0 ? Math.signum(pull) * Math.max(0, Math.abs(pull) - resistance)
        : pull - Math.signum(velocity) * resistance;
  }
}
