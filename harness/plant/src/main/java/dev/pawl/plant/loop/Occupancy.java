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
    /** Trains that truly are in it. */
    int there;
    /** The zone that ends where it begins. */
    Optional<Watched> behind = Optional.empty();
    double since = Double.NaN;
    boolean fooled;
    boolean hazard;

    Watched(Zone zone, double from, double length) {
      this.name = zone.name();
      this.from = from;
      this.length = length;
      this.told = zone.startsWith().orElseThrow();
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
        zones.add(new Watched(zone, entry.get().place(), length > 0 ? length : length + course.length(0)));
        found.add(new int[] {enters.get(), leaves.get()});
      }
    }
    signals = found.toArray(int[][]::new);
    for (int i = 0; i < signals.length; i++) {
      for (int j = 0; j < signals.length; j++) {
        if (signals[j][1] == signals[i][0]) {
          zones.get(i).behind = Optional.of(zones.get(j));
        }
      }
    }
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
    }
    if (compare) {
      zones.forEach(zone -> zone.there = trainsIn(zone, time));
      zones.forEach(zone -> compare(zone, time));
    }
  }

  private int trainsIn(Watched zone, double time) {
    int there = 0;
    for (Train train : plant.trains()) {
      there += isIn(zone, train, time) ? 1 : 0;
    }
    return there;
  }

  /** Whether a train is in a zone untold, and not counted in the zone behind either, where it would keep others out. */
  private boolean isLost(Watched zone, double time) {
    int untold = zone.there - zone.told;
    return untold > 0 && zone.behind.map(behind -> {
      long across = plant.trains().stream().filter(it -> isIn(zone, it, time) && isIn(behind, it, time)).count();
      return behind.told - behind.there < untold - Math.min(across, untold);
    }).orElse(true);
  }

  private void compare(Watched zone, double time) {
    boolean hazard = isLost(zone, time);
    if (zone.there == zone.told) {
      zone.since = Double.NaN;
      zone.fooled = false;
      zone.hazard = false;
    } else if (Double.isNaN(zone.since)) {
      zone.since = time;
    } else if (time - zone.since >= PATIENCE && (!zone.fooled || hazard && !zone.hazard)) {
      truth.add(Truth.Kind.FOOLED, zone.fooled ? time : zone.since, "tracking was fooled: flags told of "
          + trains(zone.told) + " in zone " + zone.name + ", where there " + (zone.there == 0 ? "was none"
              : zone.there == 1 ? "was one" : "were " + zone.there), hazard);
      zone.fooled = true;
      zone.hazard = hazard;
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
