package dev.pawl.plant.loop;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.plant.motion.Course;
import dev.pawl.plant.motion.Plant;
import dev.pawl.plant.motion.Train;
import dev.pawl.plant.ride.Flag;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The trains that truly are in the zones of the rules, beside those that the flags told of. Only zones of the circuit
 * that
 * a rising flag enters and a falling one leaves are looked at.
 */
final class Occupancy {

  /** A difference that is gone sooner is only a flag's lateness, seconds. */
  private static final double PATIENCE = 1;

  private final Plant plant;
  private final Truth truth;
  private final List<Watched> zones = new ArrayList<>();

  /** A zone between two flags. */
  private static final class Watched {
    final String name;
    final double from;
    final double length;
    boolean entered;
    boolean left;
    int told;
    double since = Double.NaN;
    boolean fooled;

    Watched(String name, double from, double length, int told) {
      this.name = name;
      this.from = from;
      this.length = length;
      this.told = told;
    }
  }

  private final int[][] signals;

  Occupancy(RuleBook book, List<Flag> flags, Plant plant, Truth truth) {
    this.plant = plant;
    this.truth = truth;
    Course course = plant.course();
    List<int[]> found = new ArrayList<>();
    for (Zone zone : book.zones()) {
      Optional<Integer> enters = flag(zone.entry(), true);
      Optional<Integer> leaves = flag(zone.exit(), false);
      Optional<Flag> entry = enters.flatMap(signal -> of(book, flags, signal));
      Optional<Flag> exit = leaves.flatMap(signal -> of(book, flags, signal));
      if (entry.isPresent() && exit.isPresent() && entry.get().track() == 0 && exit.get().track() == 0
          && zone.startsWith().isPresent()) {
        double length = exit.get().place() - entry.get().place();
        zones.add(new Watched(zone.name(), entry.get().place(), length > 0 ? length : length + course.length(0),
            zone.startsWith().getAsInt()));
        found.add(new int[] {enters.get(), leaves.get()});
      }
    }
    signals = found.toArray(int[][]::new);
  }

  /** The zones that it looks at. */
  List<TrainPaths.Zone> zones() {
    return zones.stream().map(it -> new TrainPaths.Zone(it.name, it.from, it.from + it.length)).toList();
  }

  private static Optional<Integer> flag(Zone.Boundary boundary, boolean rises) {
    return boundary.match(edge -> edge.event() instanceof BoolExpr.Rises it && rises
        && it.operand() instanceof BoolExpr.Signal signal ? Optional.of(signal.signal())
            : edge.event() instanceof BoolExpr.Falls it && !rises && it.operand() instanceof BoolExpr.Signal signal
                ? Optional.of(signal.signal()) : Optional.empty(), pair -> Optional.empty());
  }

  private static Optional<Flag> of(RuleBook book, List<Flag> flags, int signal) {
    String name = book.signals().get(signal).name();
    return flags.stream().filter(it -> it.signal().text().equals(name)).findFirst();
  }

  /** Takes what the flags tell at the first scan. */
  void begin(double[] image) {
    for (int i = 0; i < zones.size(); i++) {
      zones.get(i).entered = image[signals[i][0]] != 0;
      zones.get(i).left = image[signals[i][1]] != 0;
    }
  }

  /** Counts as flags tell, and now and then compares that with where trains are. */
  void look(double[] image, double time, boolean compare) {
    for (int i = 0; i < signals.length; i++) {
      Watched zone = zones.get(i);
      boolean entered = image[signals[i][0]] != 0;
      boolean left = image[signals[i][1]] != 0;
      if (entered != zone.entered) {
        zone.told += entered ? 1 : 0;
        zone.entered = entered;
      }
      if (left != zone.left) {
        zone.told -= left || zone.told == 0 ? 0 : 1;
        zone.left = left;
      }
      if (compare) {
        compare(zone, time);
      }
    }
  }

  private void compare(Watched zone, double time) {
    int there = 0;
    for (Train train : plant.trains()) {
      there += isIn(zone, train, time) ? 1 : 0;
    }
    if (there == zone.told) {
      zone.since = Double.NaN;
      zone.fooled = false;
    } else if (Double.isNaN(zone.since)) {
      zone.since = time;
    } else if (!zone.fooled && time - zone.since >= PATIENCE) {
      zone.fooled = true;
      truth.add(Truth.Kind.FOOLED, zone.since, "tracking was fooled: flags told of " + trains(zone.told) + " in zone "
          + zone.name + ", where there " + (there == 0 ? "was none" : there == 1 ? "was one" : "were "
              + there), zone.told < there);
    }
  }

  private static String trains(int count) {
    return count == 0 ? "no train" : count == 1 ? "one train" : count + " trains";
  }

  private boolean isIn(Watched zone, Train train, double time) {
    if (train.track() != 0) {
      return false;
    }
    double round = plant.course().length(0);
    double into = (train.nose(time) - zone.from) % round;
    double nose = into < 0 ? into + round : into;
    return nose - train.kind().length() < zone.length;
  }
}
