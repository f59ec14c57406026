package dev.pawl.grammar.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.corpus.Corpus;
import java.io.IOException;
import java.nio.file.Path;
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
    Messages.expect(file, false, Corpus.LOGIC_PRELUDE);
  }

  @Test
  void everyExpectedTextHasItsFile() {
    WRONG.expectNoOrphans();
    assertThat(WRONG.files().count()).isGreaterThanOrEqualTo(60);
  }
}
