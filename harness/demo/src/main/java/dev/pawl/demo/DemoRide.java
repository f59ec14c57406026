package dev.pawl.demo;

import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.loop.RideCheck;
import dev.pawl.plant.loop.RideLoop;
import dev.pawl.plant.loop.RideMotion;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.ride.RideLanguage;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.scenario.ScenarioLanguage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** The demo ride, read from its folder: what it is like, its rules, and its scenarios. */
public final class DemoRide {

  static final long SCAN = Math.round(BlockController.SCAN * 1e9);

  /** Those whose recordings the demo checks, the ordinary one first. */
  static final List<String> RECORDED = List.of("ordinary-two-hours", "lost-idle-timer", "occupied-dispatch",
      "late-drive-stop", "chattering-flag", "roll-back", "slack-chain", "tail-over-flag", "stops-at-open-brakes",
      "desk-mistakes");
  private static final List<String> ALL = List.of("ordinary-two-hours", "lost-idle-timer", "occupied-dispatch",
      "late-drive-stop", "chattering-flag", "roll-back", "slack-chain", "tail-over-flag", "stops-at-open-brakes",
      "desk-mistakes", "trial", "stop-during-dispatch", "stop-before-midcourse", "held-buttons", "dead-sensors");

  private final Path folder;
  private final Ride ride;
  private final RuleBook book;

  private DemoRide(Path folder, Ride ride, RuleBook book) {
    this.folder = folder;
    this.ride = ride;
    this.book = book;
  }

  /**
   * Reads the ride.
   *
   * @param folder that holds {@code kestrel-ridge.ride}
   * @throws IOException where a file cannot be read, or has a mistake
   */
  public static DemoRide open(Path folder) throws IOException {
    Source rules = source(folder.resolve("kestrel-ridge.rules"));
    Optional<RuleBook> book = RuleLanguage.compile(List.of(rules), name -> source(Path.of(name))).book();
    Source source = source(folder.resolve("kestrel-ridge.ride"));
    RideLanguage.Reading reading = RideLanguage.read(source);
    Ride ride = required(reading.ride(), reading.diagnostics(), List.of(source));
    RuleBook declared = required(book, List.of(), List.of(rules));
    List<Diagnostic> misfits = RideCheck.check(ride, declared, source.name());
    return new DemoRide(folder, required(misfits.isEmpty() ? Optional.of(ride) : Optional.empty(), misfits,
        List.of(source)), declared);
  }

  /** The names of all scenarios. */
  public static List<String> scenarios() {
    return ALL;
  }

  /** The rules of the ride. */
  public RuleBook book() {
    return book;
  }

  /** A scenario of its name. */
  Scenario scenario(String name) throws IOException {
    return scenario(name, source(folder.resolve("scenarios").resolve(name + ".scenario")));
  }

  /** A scenario whose text lies in no file. */
  Scenario scenario(String name, String text) throws IOException {
    return scenario(name, new Source(name, text));
  }

  private Scenario scenario(String name, Source source) throws IOException {
    ScenarioLanguage.Reading reading = ScenarioLanguage.read(name, source,
        part -> source(folder.resolve("scenarios").resolve(part)), ride, book);
    return required(reading.scenario(), reading.diagnostics(), reading.sources());
  }

  /** The ride at the start of a scenario, to be moved by a controller of this program. */
  RideMotion motion(Scenario scenario) {
    return new RideMotion(ride, scenario, book, BlockController.SCAN);
  }

  /** The ride at the start of a scenario, to be moved by a controller from outside. */
  public RideLoop loop(String scenario) throws IOException {
    return new RideLoop(ride, scenario(scenario), book, SCAN);
  }

  private static Source source(Path file) throws IOException {
    return new Source(file.toString(), Files.readString(file));
  }

  private static <T> T required(Optional<T> read, List<Diagnostic> diagnostics, List<Source> sources)
      throws IOException {
    return read.orElseThrow(() -> new IOException(new DiagnosticRenderer(sources).render(diagnostics)));
  }
}
