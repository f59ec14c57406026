package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** What has been found wrong so far; the same thing at the same place is told once. */
public final class Problems {

  private static final int MOST = 500;

  private final Set<Diagnostic> diagnostics = new LinkedHashSet<>();
  private boolean errors;

  /** Takes a diagnostic; from a certain number on they are only summed up in one. */
  public void add(Diagnostic diagnostic) {
    errors |= diagnostic.isError();
    if (diagnostics.size() < MOST) {
      diagnostics.add(diagnostic);
    } else if (diagnostics.size() == MOST) {
      diagnostics.add(Diagnostic.error(Position.NOWHERE, "there are more than " + MOST + " problems; only these are shown", ""));
    }
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
