package dev.pawl.grammar.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.source.Source;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * A folder of tests of one language: each {@code name.rules}, {@code name.st} or {@code name.xml} stands beside a {@code name.expected},
 * which holds what the compiler says of it, as the user sees it, or its canonical layout. Where a text differs from the
 * expected one it is left in {@code target/corpus}, ready to replace it.
 *
 * <p>What many of them declare stands once, in the {@code prelude} above the folder: a rule file uses it as any other
 * file; Structured Text has no such word, so that its prelude, of global variables, is compiled with each.
 */
public final class Corpus {

  private static final Path ROOT = Path.of("src/test/resources");
  private static final Source RULES_PRELUDE = source(ROOT.resolve("rules/prelude.rules"));
  private static final String USE_PRELUDE = "use \"prelude.rules\"\n";

  /** The prelude of Structured Text. */
  public static final Source LOGIC_PRELUDE = source(ROOT.resolve("logic/prelude.st"));

  /** Where rule files of the corpus find the prelude, and nothing else. */
  public static final SourceLoader LOADER = name -> {
    if (!name.equals(RULES_PRELUDE.name())) {
      throw new FileNotFoundException("no other file can be used here");
    }
    return RULES_PRELUDE;
  };

  private final Path folder;
  private final String ending;

  private Corpus(Path folder, String ending) {
    this.folder = folder;
    this.ending = ending;
  }

  public static Corpus rules(String name) {
    return new Corpus(ROOT.resolve("rules").resolve(name), ".rules");
  }

  public static Corpus logic(String name) {
    return new Corpus(ROOT.resolve("logic").resolve(name), ".st");
  }

  public static Corpus drawn(String name) {
    return new Corpus(ROOT.resolve("logic").resolve(name), ".xml");
  }

  public Stream<Path> files() {
    return files(ending).stream();
  }

  private List<Path> files(String end) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.toString().endsWith(end)).sorted().toList();
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }

  public static Source source(Path file) {
    try {
      return new Source(file.getFileName().toString(), Files.readString(file));
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }

  /** The text of a rule file with the prelude in it: whole in one text, where nothing else is to be read. */
  public static String whole(String text) {
    return text.replace(USE_PRELUDE, RULES_PRELUDE.text());
  }

  /** Fails where the text beside {@code file} is missing or another one. */
  public static void expect(Path file, String actual) throws IOException {
    Path expected = Path.of(file.toString().replaceFirst("\\.\\w+$", ".expected"));
    Path kept = Path.of("target/corpus").resolve(ROOT.relativize(expected));
    Files.createDirectories(kept.getParent());
    Files.writeString(kept, actual);
    assertThat(expected).as("expected text, to be copied from %s", kept).exists();
    assertThat(actual).as("what is in %s", kept).isEqualTo(Files.readString(expected));
  }

  /** Fails where an expected text has no file that it is expected of. */
  public void expectNoOrphans() {
    assertThat(files(".expected")).allSatisfy(file ->
        assertThat(Path.of(file.toString().replace(".expected", ending))).exists());
  }
}
