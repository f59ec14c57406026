package dev.pawl.plant.loop;

import dev.pawl.plant.motion.Equipment;
import dev.pawl.plant.motion.Plant;
import dev.pawl.plant.motion.Train;
import dev.pawl.plant.scenario.Desk;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

/**
 * Trains that move where nothing may: while a stop stands that has had its time, and beside people who get on and off.
 */
final class ForbiddenMotion {

  /** Metres that nobody minds. */
  private static final double LITTLE = 0.1;

  private final Plant plant;
  private final Function<Equipment, String> names;
  private final Truth truth;
  private final List<Desk.Stop> stops;
  private final List<Desk.Boarding> boardings;
  /** By stop: since when it stands, in seconds; not a number where it does not. */
  private final double[] stands;
  private final boolean[] released;
  private final Begun[] underStop;
  private final Begun[] boarding;

  /** By train: where its nose was when it began to move so; not a number where it does not, infinite once told. */
  private record Begun(double[] noses) {

    Begun(int trains) {
      this(new double[trains]);
      Arrays.fill(noses, Double.NaN);
    }

    void end(int train) {
      noses[train] = Double.NaN;
    }

    /** Whether a train has just come further than a little. */
    boolean comes(int train, double nose) {
      noses[train] = Double.isNaN(noses[train]) ? nose : noses[train];
      boolean far = !Double.isInfinite(noses[train]) && Math.abs(nose - noses[train]) > LITTLE;
      noses[train] = far ? Double.POSITIVE_INFINITY : noses[train];
      return far;
    }
  }

  ForbiddenMotion(Desk desk, Plant plant, Function<Equipment, String> names, Truth truth) {
    this.plant = plant;
    this.names = names;
    this.truth = truth;
    stops = desk.stops();
    boardings = desk.boardings();
    stands = new double[stops.size()];
    Arrays.fill(stands, Double.NaN);
    released = new boolean[stops.size()];
    underStop = begun(stops.size());
    boarding = begun(boardings.size());
  }

  private Begun[] begun(int size) {
    Begun[] all = new Begun[size];
    Arrays.setAll(all, unused -> new Begun(plant.trains().size()));
    return all;
  }

  /** Looks at all trains, at a scan. */
  void look(double[] image, double time) {
    for (int i = 0; i < stands.length; i++) {
      follow(i, image, time);
      boolean due = time - stands[i] > stops.get(i).within();
      for (Train train : plant.trains()) {
        stop(i, train, time, due);
      }
    }
    for (int i = 0; i < boarding.length; i++) {
      boolean open = !boardings.get(i).shut().holds(image);
      for (Train train : plant.trains()) {
        board(i, train, time, open);
      }
    }
  }

  private void follow(int stop, double[] image, double time) {
    boolean releases = stops.get(stop).released().holds(image);
    if (stops.get(stop).demanded().holds(image)) {
      stands[stop] = Double.isNaN(stands[stop]) ? time : stands[stop];
    } else if (releases && !released[stop]) {
      stands[stop] = Double.NaN;
    }
    released[stop] = releases;
  }

  private void stop(int stop, Train train, double time, boolean due) {
    Optional<Equipment> by = due && train.speed(time) != 0 ? plant.movedBy(train) : Optional.empty();
    if (by.isEmpty()) {
      underStop[stop].end(train.index());
    } else if (underStop[stop].comes(train.index(), train.nose(time))) {
      truth.add(Truth.Kind.UNDER_STOP, time, String.format(Locale.ROOT,
          "a train moved under a stop: %s in %s, %.1f s after it was demanded", train.name(), names.apply(by.get()),
          time - stands[stop]), true);
    }
  }

  private void board(int which, Train train, double time, boolean open) {
    if (!open || !isBeside(boardings.get(which), train, time)) {
      boarding[which].end(train.index());
    } else if (boarding[which].comes(train.index(), train.nose(time))) {
      truth.add(Truth.Kind.BOARDING, time, String.format(Locale.ROOT,
          "a train moved where people were getting on: %s, by %.1f m/s", train.name(), Math.abs(train.speed(time))),
          true);
    }
  }

  private boolean isBeside(Desk.Boarding stretch, Train train, double time) {
    if (train.track() != 0) {
      return false;
    }
    double round = plant.course().length(0);
    double into = (train.nose(time) - stretch.from()) % round;
    return (into < 0 ? into + round : into) - train.kind().length() < stretch.to() - stretch.from();
  }
}
