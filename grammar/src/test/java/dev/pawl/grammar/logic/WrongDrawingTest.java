package dev.pawl.grammar.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.corpus.Corpus;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Wrong and hostile projects in the exchange formats, with exactly what is said about each. */
class WrongDrawingTest {

  private static final Corpus WRONG = Corpus.drawn("drawn");
  private static final Corpus DOUBTFUL = Corpus.drawn("doubtful");

  static Stream<Path> wrong() {
    return WRONG.files();
  }

  @ParameterizedTest
  @MethodSource("wrong")
  void saysExactlyWhatIsWrong(Path file) throws IOException {
    Messages.expect(file, false);
  }

  static Stream<Path> doubtful() {
    return DOUBTFUL.files();
  }

  @ParameterizedTest
  @MethodSource("doubtful")
  void saysExactlyWhatIsDoubtful(Path file) throws IOException {
    Messages.expect(file, true);
  }

  @Test
  void everyExpectedTextHasItsFile() {
    WRONG.expectNoOrphans();
    DOUBTFUL.expectNoOrphans();
    assertThat(WRONG.files().count()).isGreaterThanOrEqualTo(50);
  }

  /** Whatever is changed in a project, there is a program, or an error with a place. */
  @Test
  void anyChangeGivesAProgramOrALocatedError() {
    Random random = new Random(20);
    for (Path file : WRONG.files().toList()) {
      String text = Corpus.source(file).text();
      for (int i = 0; i < 60; i++) {
        StringBuilder changed = new StringBuilder(text);
        for (int changes = 1 + random.nextInt(3); changes > 0; changes--) {
          int at = random.nextInt(changed.length());
          int end = Math.min(changed.length(), at + random.nextInt(12));
          int from = random.nextInt(text.length());
          changed.replace(at, end, text.substring(from, Math.min(text.length(), from + random.nextInt(12))));
        }
        Source source = new Source("changed.xml", changed.toString());
        LogicLanguage.Compilation compilation = LogicLanguage.compile(List.of(source));
        assertThat(compilation.program().isPresent()).as(changed.toString())
            .isEqualTo(compilation.diagnostics().stream().noneMatch(Diagnostic::isError));
        assertThat(compilation.diagnostics()).as(changed.toString()).allMatch(it -> it.position().line() > 0);
      }
    }
  }
}
