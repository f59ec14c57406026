package dev.pawl.grammar.rules.reference;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.format.RuleFormatter;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The language reference, held to what it says: each block of rules compiles behind the declarations at its head and is
 * laid out as it should be, each picture shows the trace of its example, and no word of the grammar is left out. The
 * engine's tests run the examples.
 */
class LanguageReferenceTest {

  private static final Path REFERENCE = Path.of("LANGUAGE.md");
  private static final Pattern FENCE = Pattern.compile("(?ms)^```(rules|rules head|timing)\\n(.*?)^```$");

  private record Block(String kind, String text, int line) {
    @Override
    public String toString() {
      return "LANGUAGE.md:" + line;
    }
  }

  private static List<Block> blocks() throws IOException {
    String page = Files.readString(REFERENCE);
    List<Block> blocks = new ArrayList<>();
    Matcher matcher = FENCE.matcher(page);
    while (matcher.find()) {
      blocks.add(new Block(matcher.group(1), matcher.group(2), (int) page.substring(0, matcher.start()).lines().count()
          + 1));
    }
    return blocks;
  }

  static Stream<Block> rules() throws IOException {
    return blocks().stream().filter(block -> block.kind().equals("rules"));
  }

  private static String head() throws IOException {
    return blocks().stream().filter(block -> block.kind().equals("rules head")).map(Block::text)
        .collect(Collectors.joining());
  }

  private static Compilation compile(Block block) throws IOException {
    return RuleLanguage.compile(List.of(new Source(block.toString(), head() + block.text())), SourceLoader.none());
  }

  @ParameterizedTest
  @MethodSource("rules")
  void everyBlockCompilesAndIsLaidOut(Block block) throws IOException {
    Compilation compilation = compile(block);
    assertThat(compilation.diagnostics().stream().filter(Diagnostic::isError)).as(compilation.rendered()).isEmpty();
    assertThat(RuleFormatter.format(new Source("block", block.text())).text()).contains(block.text());
  }

  @Test
  void everyPictureShowsTheTraceOfItsExample() throws IOException {
    Block rules = null;
    for (Block block : blocks()) {
      if (block.kind().equals("timing")) {
        assertThat(rules).isNotNull();
        assertThat(withoutNotes(block.text())).as(block.toString()).isEqualTo(pictures(rules));
      }
      rules = block;
    }
  }

  /** Lines that begin with {@code due} say in a picture what the example's rule waits for; they are drawn by hand. */
  private static String withoutNotes(String picture) {
    return picture.lines().filter(line -> !line.startsWith("due ")).collect(Collectors.joining("\n", "", "\n"));
  }

  private static String pictures(Block rules) throws IOException {
    Compilation compilation = compile(rules);
    RuleBook book = compilation.book().orElseThrow();
    return compilation.examples().stream().map(example -> new TimingPicture(book, example).draw())
        .collect(Collectors.joining("\n"));
  }

  @Test
  void everyWordOfTheGrammarIsExplained() throws IOException {
    String page = Files.readString(REFERENCE);
    String grammar = Files.readString(Path.of("src/main/antlr4/dev/pawl/grammar/rules/parse/Rules.g4"));
    Matcher words = Pattern.compile("'([a-z]+)'").matcher(grammar);
    List<String> missing = new ArrayList<>();
    while (words.find()) {
      if (!Pattern.compile("`[^`\\n]*\\b" + words.group(1) + "\\b[^`\\n]*`").matcher(page).find()) {
        missing.add(words.group(1));
      }
    }
    assertThat(missing).isEmpty();
  }
}
