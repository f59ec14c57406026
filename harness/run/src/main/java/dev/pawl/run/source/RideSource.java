package dev.pawl.run.source;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.plant.loop.PowerCuts;
import dev.pawl.plant.loop.RideLoop;
import dev.pawl.plant.scenario.Doing;
import dev.pawl.plant.scenario.ScenarioText;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.TrainPaths;
import dev.pawl.report.model.Truth;
import dev.pawl.run.EventSource;
import dev.pawl.run.files.RideFiles;
import dev.pawl.trace.intake.Progress;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;

/**
 * A scenario of a described ride in motion: what the logic under test commands moves the trains, and the trains its
 * inputs.
 */
public final class RideSource implements EventSource {

  /** Scans between looks at whether to go on. */
  private static final int LOOK_EVERY = 1000;

  private final RideFiles ride;
  private final RideFiles.ReadScenario scenario;
  private final RuleBook book;
  private final long scan;
  private RideLoop ran;

  /**
   * A source that has not begun.
   *
   * @param scan nanoseconds from scan to scan
   */
  public RideSource(RideFiles ride, String scenario, long scan) {
    this(ride, ride.scenario(scenario), scan);
  }

  private RideSource(RideFiles ride, RideFiles.ReadScenario scenario, long scan) {
    this.ride = ride;
    this.scenario = scenario;
    this.book = ride.rules().book();
    this.scan = scan;
  }

  @Override
  public String name() {
    return scenario.scenario().name();
  }

  @Override
  public Optional<Path> file() {
    return Optional.empty();
  }

  @Override
  public List<Path> files() {
    List<Path> files = new ArrayList<>(List.of(ride.file()));
    files.addAll(scenario.files());
    return files;
  }

  @Override
  public boolean reacts() {
    return true;
  }

  @Override
  public EventSource forAnotherLook() {
    return new RideSource(ride, scenario, scan);
  }

  @Override
  public Run begin(boolean[] needed) {
    return new Moving(moved());
  }

  /** The ride at the start of its scenario, for whoever moves it; what happens in it is what is examined later. */
  public RideLoop moved() {
    ran = new RideLoop(ride.ride(), scenario.scenario(), book, scan);
    ran.drawPaths();
    return ran;
  }

  /** Whether the scenario cuts the controller's power. */
  public boolean cutsPower() {
    return Stream.concat(scenario.scenario().script().stream(), scenario.scenario().watches().stream().flatMap(it -> it
        .doings().stream())).anyMatch(it -> it.doing() instanceof Doing.Cut);
  }

  /** With what truly happened in the run. */
  @Override
  public TraceResult examined(TraceResult result) {
    if (ran == null || result.rules().isEmpty()) {
      return result;
    }
    long first = result.rules().stream().flatMap(rule -> rule.broken().stream()).mapToLong(FindingResult::time).min()
        .orElse(Long.MAX_VALUE);
    List<Truth.Happening> happenings = ran.truth().happenings().stream().map(it -> new Truth.Happening(
        Truth.Kind.valueOf(it.kind().name()), time(it.seconds()), it.words(), it.hazard(),
        first != Long.MAX_VALUE && it.isNoticedBy((first - ran.start()) / 1e9))).toList();
    return result.withTruth(new Truth(happenings, ran.truth().count(), Optional.of(paths())));
  }

  private TrainPaths paths() {
    List<TrainPaths.Zone> zones = ran.zones().stream().map(it -> new TrainPaths.Zone(it.name(), it.from(), it.to()))
        .toList();
    List<TrainPaths.Path> paths = ran.paths().stream().map(path -> new TrainPaths.Path(path.train(), path.points()
        .stream().map(it -> new TrainPaths.Point(time(it.seconds()), it.place())).toList())).toList();
    List<TrainPaths.Done> done = ran.done().stream().map(it -> new TrainPaths.Done(time(it.at()),
        ScenarioText.of(it.doing(), book), isFault(it.doing()))).toList();
    return new TrainPaths(ride.ride().course().length(0), zones, paths, done);
  }

  private long time(double seconds) {
    return ran.start() + Math.round(seconds * 1e9);
  }

  /** Whether it is nothing that people do: equipment fails, or an input shows what its sensor does not. */
  private boolean isFault(Doing doing) {
    return doing.accept(new Doing.Visitor<>() {
      @Override
      public Boolean visit(Doing.Hold hold) {
        String signal = book.signals().get(hold.signal()).name();
        return ride.ride().flags().stream().anyMatch(it -> it.signal().text().equals(signal))
            || ride.ride().sensors().stream().anyMatch(it -> it.signal().text().equals(signal));
      }

      @Override public Boolean visit(Doing.Leave it) { return false; }
      @Override public Boolean visit(Doing.Perform it) { return false; }
      @Override public Boolean visit(Doing.Fail it) { return true; }
      @Override public Boolean visit(Doing.Swap it) { return true; }
      @Override public Boolean visit(Doing.Cut it) { return true; }
    });
  }

  /** The ride in motion. */
  private record Moving(RideLoop loop) implements Run {

    /** The ride hears what the logic commands. */
    @Override
    public EventSink heardBy(EventSink judge) {
      return loop.heardBy(judge);
    }

    @Override
    public void cuts(PowerCuts taker) {
      loop.cuts(taker);
    }

    @Override
    public boolean calendar() {
      return loop.calendar();
    }

    @Override
    public Summary runTo(EventSink sink, Progress progress) {
      long[] last = {0};
      long end = loop.run(sink, scan -> {
        last[0] = scan;
        return scan % LOOK_EVERY != 0 || progress.reached(0, scan);
      });
      boolean interrupted = last[0] + 1 != loop.scans() && loop.beyondModel().isEmpty();
      Reading control = loop.beyondModel().map(why -> new Reading(List.of(), List.of(), 0,
          "the model of the ride ended: " + why + "; what comes after is not judged")).orElse(Reading.CLEAN);
      return new Summary(new Extent(last[0] + 1, loop.events(), OptionalLong.of(end), interrupted), List.of(),
          Reading.CLEAN, control);
    }

    @Override
    public void close() {}
  }
}
