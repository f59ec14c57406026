package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.HashSet;
import java.util.Set;
import java.util.function.Consumer;

/** Where the checker's findings go; one place gets one error of a kind only. */
final class Reports {

  private final Consumer<Diagnostic> diagnostics;
  private final Set<Diagnostic> told = new HashSet<>();

  Reports(Consumer<Diagnostic> diagnostics) {
    this.diagnostics = diagnostics;
  }

  void error(Position position, String message, String hint) {
    tell(Diagnostic.error(position, message, hint));
  }

  void error(Position position, String message) {
    error(position, message, "");
  }

  void warning(Position position, String message, String hint) {
    tell(Diagnostic.warning(position, message, hint));
  }

  private void tell(Diagnostic diagnostic) {
    if (told.add(diagnostic)) {
      diagnostics.accept(diagnostic);
    }
  }
}
