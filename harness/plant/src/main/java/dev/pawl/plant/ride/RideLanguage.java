package dev.pawl.plant.ride;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.Optional;

/** The facade of ride files, whose form RIDE.md describes. */
public final class RideLanguage {

  private RideLanguage() {}

  /**
   * What a ride file holds.
   *
   * @param ride the ride; empty where there are errors
   * @param diagnostics all that is wrong with it or doubtful, in the order of the text
   */
  public record Reading(Optional<Ride> ride, List<Diagnostic> diagnostics) {}

  /** Reads a whole file. */
  public static Reading read(Source source) {
    Diagnostics diagnostics = new Diagnostics();
    Ride ride = new RideReader(diagnostics).read(source);
    return new Reading(diagnostics.hasErrors() ? Optional.empty() : Optional.of(ride),
        diagnostics.inOrder(List.of(source.name())));
  }
}
