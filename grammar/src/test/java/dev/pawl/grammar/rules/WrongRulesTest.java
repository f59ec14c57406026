package dev.pawl.grammar.rules;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.corpus.Corpus;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The tables of wrong rule files, which give no book, and of doubtful ones, which do, with exactly what is said about
 * each.
 */
class WrongRulesTest {

  private static final Corpus WRONG = Corpus.rules("wrong");
  private static final Corpus DOUBTFUL = Corpus.rules("doubtful");

  static Stream<Path> wrong() {
    return WRONG.files();
  }

  static Stream<Path> doubtful() {
    return DOUBTFUL.files();
  }

  private static Compilation compile(Path file) {
    return RuleLanguage.compile(List.of(Corpus.source(file)), Corpus.LOADER);
  }

  @ParameterizedTest
  @MethodSource("wrong")
  void saysExactlyWhatIsWrong(Path file) throws IOException {
    Compilation compilation = compile(file);
    assertThat(compilation.book()).as("a book in spite of errors").isEmpty();
    Corpus.expect(file, compilation.rendered());
  }

  @ParameterizedTest
  @MethodSource("doubtful")
  void warnsOfWhatIsDoubtful(Path file) throws IOException {
    Compilation compilation = compile(file);
    assertThat(compilation.book()).as("no book in spite of no error").isPresent();
    assertThat(compilation.diagnostics()).isNotEmpty();
    Corpus.expect(file, compilation.rendered());
  }

  @Test
  void everyExpectedTextHasItsFile() {
    WRONG.expectNoOrphans();
    DOUBTFUL.expectNoOrphans();
    assertThat(WRONG.files().count()).isGreaterThanOrEqualTo(40);
  }
}
