package dev.pawl.grammar.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.corpus.Corpus;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

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

  /** Compares what is said about a file of a corpus, and whether there is a program, with what is expected. */
  static void expect(Path file, boolean program, Source... besides) throws IOException {
    List<Source> sources = Stream.concat(Stream.of(Corpus.source(file)), Stream.of(besides)).toList();
    LogicLanguage.Compilation compilation = LogicLanguage.compile(sources);
    assertThat(compilation.program().isPresent()).as("whether there is a program").isEqualTo(program);
    Corpus.expect(file, new DiagnosticRenderer(sources).render(compilation.diagnostics()));
  }

  static String rendered(String text) {
    return new DiagnosticRenderer(List.of(new Source("test.st", text))).render(compile(text).diagnostics());
  }
}
