package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** What has been found wrong so far; the same thing at the same place is told once. */
public final class Problems {

  private final Set<Diagnostic> diagnostics = new LinkedHashSet<>();
  private boolean errors;

  public void add(Diagnostic diagnostic) {
    diagnostics.add(diagnostic);
    errors |= diagnostic.isError();
  }

  void error(Position position, String message, String hint) {
    add(Diagnostic.error(position, message, hint));
  }

  void error(Position position, String message) {
    error(position, message, "");
  }

  void warning(Position position, String message, String hint) {
    add(Diagnostic.warning(position, message, hint));
  }

  public boolean hasErrors() {
    return errors;
  }

  public List<Diagnostic> list() {
    return List.copyOf(diagnostics);
  }
}
