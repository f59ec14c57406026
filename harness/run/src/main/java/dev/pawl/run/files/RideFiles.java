package dev.pawl.run.files;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.loop.RideCheck;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.ride.RideLanguage;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.scenario.ScenarioLanguage;
import dev.pawl.run.RunException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * A described ride and its scenarios, which lie in the folder {@code scenarios} beside it.
 *
 * @param file the ride's file
 * @param ride what it holds, checked against the rules
 * @param rules whose signals it names
 */
public record RideFiles(Path file, Ride ride, RuleFiles rules) {

  public static final String ENDING = ".ride";
  public static final String SCENARIO = ".scenario";
  private static final String PART = ".part";
  private static final String FOLDER = "scenarios";

  /**
   * A scenario with the files that it was read from.
   *
   * @param files its own, and those it uses
   */
  public record ReadScenario(Scenario scenario, List<Path> files) {}

  /**
   * Reads a ride.
   *
   * @param path its file, or a folder with one
   * @throws RunException with every diagnostic, if there is an error in it or it does not fit the rules
   */
  public static RideFiles load(String path, RuleFiles rules) {
    List<Path> files = Folders.files(List.of(path), "a ride (*" + ENDING + ")", name -> name.endsWith(ENDING));
    if (files.size() > 1) {
      throw new RunException(path + ": there are " + files.size() + " rides in it; name one, such as " + files.get(0));
    }
    Source source = RuleFiles.read(files.get(0));
    RideLanguage.Reading reading = RideLanguage.read(source);
    List<Diagnostic> diagnostics = reading.ride().map(ride -> RideCheck.check(ride, rules.book(), source.name()))
        .orElse(reading.diagnostics());
    if (!diagnostics.isEmpty()) {
      throw wrong(List.of(source), diagnostics, "the ride");
    }
    return new RideFiles(files.get(0), reading.ride().orElseThrow(), rules);
  }

  private static RunException wrong(List<Source> sources, List<Diagnostic> diagnostics, String what) {
    String count = diagnostics.size() + (diagnostics.size() == 1 ? " error" : " errors");
    return new RunException(new DiagnosticRenderer(sources).render(diagnostics), what + " has " + count
        + ", nothing was judged");
  }

  /** The names of the scenarios beside it. */
  public List<String> scenarios() {
    return beside(SCENARIO).stream().map(RideFiles::name).sorted().toList();
  }

  private List<Path> beside(String ending) {
    return Files.isDirectory(folder()) ? Folders.inside(folder(), name -> name.endsWith(ending)) : List.of();
  }

  /**
   * Inputs that stay as they are: neither the ride's file nor a scenario beside it says a word of them.
   *
   * @param named scenarios that lie elsewhere, as {@link #scenario} takes them; others are passed over
   */
  public List<String> untouched(List<String> named) {
    List<Path> files = new ArrayList<>(List.of(file));
    files.addAll(beside(SCENARIO));
    files.addAll(beside(PART));
    named.stream().filter(it -> it.endsWith(SCENARIO)).map(Path::of).filter(Files::isRegularFile).forEach(files::add);
    Set<String> words = new HashSet<>();
    files.forEach(it -> words.addAll(List.of(RuleFiles.read(it).text().replaceAll("--.*", "").split("\\W+"))));
    return rules.book().signals().stream().filter(it -> it.direction() == Signal.Direction.INPUT).map(Signal::name)
        .filter(it -> !words.contains(it)).toList();
  }

  private Path folder() {
    return folder(file);
  }

  /** Where the scenarios of a ride lie. */
  public static Path folder(Path ride) {
    return Files.isDirectory(ride) ? ride.resolve(FOLDER) : ride.resolveSibling(FOLDER);
  }

  private static String name(Path scenario) {
    String name = scenario.getFileName().toString();
    return name.endsWith(SCENARIO) ? name.substring(0, name.length() - SCENARIO.length()) : name;
  }

  /**
   * Reads a scenario.
   *
   * @param named one of {@link #scenarios}, or the path of a file
   * @throws RunException with every diagnostic, if there is an error in it
   */
  public ReadScenario scenario(String named) {
    Path path = named.endsWith(SCENARIO) ? Path.of(named) : folder().resolve(named + SCENARIO);
    if (!Files.isRegularFile(path)) {
      List<String> known = scenarios();
      throw new RunException("no scenario '" + named + "';" + NearName.hint(named, known).map(" "::concat).orElse("")
          + (known.isEmpty() ? " there is none in " + folder() : " there are " + String.join(", ", known)));
    }
    Source source = RuleFiles.read(path);
    ScenarioLanguage.Reading reading = ScenarioLanguage.read(name(path), source, part -> load(path, part), ride,
        rules.book());
    if (reading.scenario().isEmpty()) {
      List<Source> sources = new ArrayList<>(reading.sources());
      sources.add(RuleFiles.read(file));
      throw wrong(sources, reading.diagnostics(), "the scenario");
    }
    return new ReadScenario(reading.scenario().get(), reading.sources().stream().map(it -> Path.of(it.name()))
        .toList());
  }

  private static Source load(Path scenario, String part) throws IOException {
    Path path = scenario.resolveSibling(part);
    return new Source(path.toString(), Texts.read(path));
  }
}
