package dev.pawl.plant.loop;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.plant.motion.BeyondModel;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.scenario.Scenario;
import java.util.List;
import java.util.Optional;
import java.util.function.LongPredicate;

/**
 * A ride around a controller that is not its own: tells a sink of its inputs, scan by scan, and is told of outputs
 * through
 * {@link #event}. What it is told up to a scan moves the ride until the next. Deterministic, and to be run once.
 */
public final class RideLoop implements EventSink {

  private static final long BILLION = 1_000_000_000L;
  /** Scans between looks at trains whose paths are drawn. */
  private static final int PATHS_EVERY = 20;

  private final Scenario scenario;
  private final RideMotion motion;
  private final long scan;
  private final long start;
  private final long scans;
  private final ValueType[] types;
  private final boolean[] outputs;
  private final int[] inputs;
  private final double[] told;
  private long events;
  private long now;
  private Optional<String> end = Optional.empty();
  private Optional<TrainPaths> paths = Optional.empty();

  /**
   * A loop at its start.
   *
   * @param scan nanoseconds from scan to scan
   */
  public RideLoop(Ride ride, Scenario scenario, RuleBook book, long scan) {
    this.scenario = scenario;
    this.scan = scan;
    motion = new RideMotion(ride, scenario, book, scan / 1e9);
    start = scenario.starts().map(it -> it.getEpochSecond() * BILLION + it.getNano()).orElse(0L);
    scans = Math.round(scenario.lasts() * 1e9 / scan) + 1;
    types = book.signals().stream().map(Signal::type).toArray(ValueType[]::new);
    outputs = new boolean[types.length];
    inputs = book.signals().stream().filter(it -> it.direction() == Signal.Direction.INPUT).mapToInt(Signal::index)
        .toArray();
    book.signals().forEach(it -> outputs[it.index()] = it.direction() != Signal.Direction.INPUT);
    told = new double[types.length];
  }

  /** Takes an output of the controller under test; other signals, and values that are not known, change nothing. */
  @Override
  public void event(long time, int signal, long value, long line) {
    if (outputs[signal] && value != UNKNOWN) {
      motion.set(signal, types[signal].isNumber() ? Double.longBitsToDouble(value) : value);
    }
  }

  @Override
  public void advanceTo(long time) {}

  /**
   * Runs the whole scenario, or up to where the model ends.
   *
   * @param controls takes the inputs; what it does with time up to a scan has to reach {@link #event} within
   *     {@code advanceTo}
   * @param goesOn asked at every scan, by its number, whether to go on
   * @return nanoseconds, time of the last scan
   */
  public long run(EventSink controls, LongPredicate goesOn) {
    long time = start;
    for (long number = 0; number < scans && goesOn.test(number); number++) {
      now = start + number * scan;
      controls.advanceTo(now);
      try {
        motion.move(number);
      } catch (BeyondModel beyond) {
        end = Optional.of(beyond.getMessage());
        return time;
      }
      time = now;
      tell(controls, time, number == 0);
      if (paths.isPresent() && number % PATHS_EVERY == 0) {
        paths.get().look(number * scan / 1e9);
      }
    }
    return time;
  }

  private void tell(EventSink controls, long time, boolean first) {
    for (int i = 0; i < inputs.length; i++) {
      int signal = inputs[i];
      double value = motion.value(signal);
      if (first || value != told[signal]) {
        told[signal] = value;
        events++;
        controls.event(time, signal, types[signal].isNumber()
            ? Double.doubleToRawLongBits(value) : (long) value, 0);
      }
    }
  }

  /** A taker of what the controller does, of whose commands the ride hears too. */
  public EventSink heardBy(EventSink judge) {
    return new EventSink() {
      @Override
      public void event(long time, int signal, long value, long line) {
        judge.event(time, signal, value, line);
        RideLoop.this.event(time, signal, value, line);
      }

      @Override
      public void advanceTo(long time) {
        judge.advanceTo(time);
      }
    };
  }

  /** Whether times count from 1970, since the scenario says when it starts. */
  public boolean calendar() {
    return scenario.starts().isPresent();
  }

  /** Nanoseconds, time of the first scan. */
  public long start() {
    return start;
  }

  /** Draws the paths of its trains from now on. */
  public void drawPaths() {
    paths = Optional.of(motion.newPaths());
  }

  /** Paths of its trains; none where nobody asked for them. */
  public List<TrainPaths.Path> paths() {
    return paths.map(TrainPaths::paths).orElse(List.of());
  }

  /** The zones of the rules that lie between two flags of the circuit. */
  public List<TrainPaths.Zone> zones() {
    return motion.zones();
  }

  /** What was done and what failed, the first of it. */
  public List<Scenario.Timed> done() {
    return motion.done();
  }

  /** What truly happened. */
  public Truth truth() {
    return motion.truth();
  }

  /**
   * Tells of the power cuts that the scenario has, from now on.
   *
   * @param taker told of them at their own time, before the scan of that time
   */
  public void cuts(PowerCuts taker) {
    motion.cuts(cut -> taker.cut(now, now + Math.round(cut.lasts() * 1e9), cut.warm()));
  }

  /** The smallest gap in metres between a train and the one ahead. */
  public double smallestGap() {
    return motion.smallestGap();
  }

  /** Why the model could not go on, where it could not. */
  public Optional<String> beyondModel() {
    return end;
  }

  /** How many events it told so far. */
  public long events() {
    return events;
  }

  /** How many scans the scenario has. */
  public long scans() {
    return scans;
  }
}
