package dev.pawl.grammar.logic;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import java.util.List;

/** Compilations for tests. */
final class Messages {

  private Messages() {}

  static LogicLanguage.Compilation compile(String text) {
    return LogicLanguage.compile(List.of(new Source("test.st", text)));
  }

  /** Everything wrong with a text, one line each: place, severity, message and hint. */
  static String of(String text) {
    StringBuilder lines = new StringBuilder();
    for (Diagnostic diagnostic : compile(text).diagnostics()) {
      lines.append(diagnostic.position().line()).append(':').append(diagnostic.position().column()).append(' ')
          .append(diagnostic.isError() ? "" : "warning: ").append(diagnostic.message())
          .append(diagnostic.hint().isEmpty() ? "" : " = " + diagnostic.hint()).append('\n');
    }
    return lines.toString();
  }

  static String rendered(String text) {
    return new DiagnosticRenderer(List.of(new Source("test.st", text))).render(compile(text).diagnostics());
  }
}
