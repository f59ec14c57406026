package dev.pawl.grammar.rules.format;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.parse.ParsedFile;
import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.rules.tree.Comment;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Right rule files: {@code name.rules} as somebody may write it, and {@code name.expected}, its canonical layout. Every rule file that can be
 * read, the wrong ones and those of the library too, must survive printing and reading again.
 */
class RuleFormatterTest {

  private static final Path RIGHT = Path.of("src/test/resources/rules/right");
  private static final List<Path> FOLDERS = List.of(RIGHT, Path.of("src/test/resources/rules/wrong"), Path.of("../rules"),
      Path.of("../fixtures/kestrel-ridge"));

  static Stream<Path> rightFiles() {
    return ruleFiles(RIGHT);
  }

  static Stream<Path> readableFiles() {
    return FOLDERS.stream().flatMap(RuleFormatterTest::ruleFiles)
        .filter(file -> RuleReader.read(source(file)).diagnostics().isEmpty());
  }

  private static Stream<Path> ruleFiles(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.toString().endsWith(".rules")).sorted().toList().stream();
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }

  private static Source source(Path file) {
    try {
      return new Source(file.getFileName().toString(), Files.readString(file));
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }

  @ParameterizedTest
  @MethodSource("rightFiles")
  void layoutIsCanonical(Path file) throws IOException {
    Compilation compilation = RuleLanguage.compile(List.of(source(file)), SourceLoader.none());
    assertThat(compilation.diagnostics().stream().filter(Diagnostic::isError)).as(compilation.rendered()).isEmpty();
    String formatted = RuleFormatter.format(source(file)).text().orElseThrow();
    Path expected = Path.of(file.toString().replace(".rules", ".expected"));

    Path actual = Path.of("target/corpus").resolve(expected.getFileName());
    Files.createDirectories(actual.getParent());
    Files.writeString(actual, formatted);

    assertThat(expected).as("expected layout, to be copied from %s", actual).exists();
    assertThat(formatted).as("what is in %s", actual).isEqualTo(Files.readString(expected));
  }

  @ParameterizedTest
  @MethodSource("readableFiles")
  void survivesPrintingAndReadingAgain(Path file) {
    Source source = source(file);
    Formatted formatted = RuleFormatter.format(source);
    assertThat(formatted.text()).isPresent();
    Source printed = new Source(source.name(), formatted.text().get());

    ParsedFile before = RuleReader.read(source);
    ParsedFile after = RuleReader.read(printed);
    assertThat(after.diagnostics()).isEmpty();
    assertThat(withoutPlaces(after)).isEqualTo(withoutPlaces(before));
    assertThat(commentWords(after)).containsExactlyInAnyOrderElementsOf(commentWords(before));
    assertThat(RuleFormatter.format(printed).text()).isEqualTo(formatted.text());
  }

  /** The whole tree as text, from which only positions are taken away. */
  private static String withoutPlaces(ParsedFile parsed) {
    return parsed.file().declarations().toString().replaceAll("position=[^,\\]]*:\\d+:\\d+", "");
  }

  private static List<String> commentWords(ParsedFile parsed) {
    return parsed.file().comments().stream().map(Comment::text).flatMap(text -> Arrays.stream(text.split("\\s+"))).toList();
  }
}
