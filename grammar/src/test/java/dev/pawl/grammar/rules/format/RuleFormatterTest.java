package dev.pawl.grammar.rules.format;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.corpus.Corpus;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.parse.ParsedFile;
import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.rules.tree.Comment;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Right rule files: {@code name.rules} as somebody may write it, and {@code name.expected}, its canonical layout. Every
 * rule file that can be read, the wrong ones and those of the library too, must survive printing and reading again.
 */
class RuleFormatterTest {

  static Stream<Path> rightFiles() {
    return Corpus.rules("right").files();
  }

  /** Every rule file of the checkout that can be read. */
  static Stream<Path> readableFiles() throws IOException {
    try (Stream<Path> all = Files.walk(Path.of(".."))) {
      return all.filter(file -> file.toString().endsWith(".rules") && !file.toString().contains("/target/")).sorted()
          .filter(file -> RuleReader.read(Corpus.source(file)).diagnostics().isEmpty()).toList().stream();
    }
  }

  @ParameterizedTest
  @MethodSource("rightFiles")
  void layoutIsCanonical(Path file) throws IOException {
    Compilation compilation = RuleLanguage.compile(List.of(Corpus.source(file)), SourceLoader.none());
    assertThat(compilation.diagnostics().stream().filter(Diagnostic::isError)).as(compilation.rendered()).isEmpty();
    Corpus.expect(file, RuleFormatter.format(Corpus.source(file)).text().orElseThrow());
  }

  @ParameterizedTest
  @MethodSource("readableFiles")
  void survivesPrintingAndReadingAgain(Path file) {
    Source source = Corpus.source(file);
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
    return parsed.file().comments().stream().map(Comment::text).flatMap(text -> Arrays.stream(text.split("\\s+")))
        .toList();
  }
}
