package dev.pawl.grammar.rules.format;

import dev.pawl.grammar.source.Diagnostic;
import java.util.List;
import java.util.Optional;

/**
 * What formatting gave.
 *
 * @param text the file in canonical layout; absent where it cannot be read
 * @param diagnostics why it cannot be read
 */
public record Formatted(Optional<String> text, List<Diagnostic> diagnostics) {

  public Formatted {
    diagnostics = List.copyOf(diagnostics);
  }
}
