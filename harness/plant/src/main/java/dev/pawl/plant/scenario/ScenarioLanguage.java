package dev.pawl.plant.scenario;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.ride.Ride;
import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** The facade of scenario files, whose form RIDE.md describes. */
public final class ScenarioLanguage {

  private ScenarioLanguage() {}

  /** Brings the text of a file that another one uses. */
  public interface Loader {
    /** The file of a name as it stands in a scenario. */
    Source load(String name) throws IOException;
  }

  /**
   * What a scenario file holds.
   *
   * @param scenario empty where there are errors
   * @param diagnostics all that is wrong, in order of the files
   * @param sources the files read
   */
  public record Reading(Optional<Scenario> scenario, List<Diagnostic> diagnostics, List<Source> sources) {}

  /**
   * Reads a scenario of a ride.
   *
   * @param ride whose desk it uses and whose equipment it can let fail
   * @param book whose signals it names
   */
  public static Reading read(String name, Source source, Loader loader, Ride ride, RuleBook book) {
    Diagnostics diagnostics = new Diagnostics();
    ScenarioReader reader = new ScenarioReader(ride, book, loader, diagnostics);
    Scenario scenario = reader.read(name, source);
    List<String> files = reader.sources().stream().map(Source::name).toList();
    return new Reading(diagnostics.hasErrors() ? Optional.empty() : Optional.of(scenario),
        diagnostics.inOrder(files), reader.sources());
  }
}
