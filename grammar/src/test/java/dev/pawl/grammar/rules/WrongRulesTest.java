package dev.pawl.grammar.rules;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The table of wrong rule files and what is said about each: {@code name.rules} and {@code name.expected}, side by side. Where they differ,
 * the text that was given is left in {@code target/corpus}, ready to replace the expected one.
 */
class WrongRulesTest {

  private static final Path FOLDER = Path.of("src/test/resources/rules/wrong");

  static Stream<Path> ruleFiles() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.filter(file -> file.toString().endsWith(".rules")).sorted().toList().stream();
    }
  }

  @ParameterizedTest
  @MethodSource("ruleFiles")
  void saysExactlyWhatIsWrong(Path file) throws IOException {
    String name = file.getFileName().toString();
    Compilation compilation = RuleLanguage.compile(List.of(new Source(name, Files.readString(file))), SourceLoader.none());
    Path expected = FOLDER.resolve(name.replace(".rules", ".expected"));

    Path actual = Path.of("target/corpus").resolve(expected.getFileName());
    Files.createDirectories(actual.getParent());
    Files.writeString(actual, compilation.rendered());

    assertThat(compilation.book()).as("a book in spite of errors").isEmpty();
    assertThat(expected).as("expected text, to be copied from %s", actual).exists();
    assertThat(compilation.rendered()).as("what is in %s", actual).isEqualTo(Files.readString(expected));
  }

  @Test
  void everyExpectedTextHasItsFile() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      assertThat(files.filter(file -> file.toString().endsWith(".expected")).toList())
          .allSatisfy(file -> assertThat(Path.of(file.toString().replace(".expected", ".rules"))).exists());
    }
    assertThat(ruleFiles().count()).isGreaterThanOrEqualTo(40);
  }
}
