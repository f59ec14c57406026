package dev.pawl.grammar.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.corpus.Corpus;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The table of wrong programs, with exactly what is said about each. */
class WrongLogicTest {

  private static final Corpus WRONG = Corpus.logic("wrong");

  static Stream<Path> wrong() {
    return WRONG.files();
  }

  @ParameterizedTest
  @MethodSource("wrong")
  void saysExactlyWhatIsWrong(Path file) throws IOException {
    List<Source> sources = List.of(Corpus.source(file), Corpus.LOGIC_PRELUDE);
    LogicLanguage.Compilation compilation = LogicLanguage.compile(sources);
    assertThat(compilation.program()).as("a program in spite of errors").isEmpty();
    Corpus.expect(file, new DiagnosticRenderer(sources).render(compilation.diagnostics()));
  }

  @Test
  void everyExpectedTextHasItsFile() {
    WRONG.expectNoOrphans();
    assertThat(WRONG.files().count()).isGreaterThanOrEqualTo(60);
  }
}
