package dev.pawl.grammar.rules;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * A folder of tests: each {@code name.rules} stands beside a {@code name.expected}. Where a text differs from the
 * expected one it is left in {@code target/corpus}, ready to replace it.
 */
public final class Corpus {

  private final Path folder;

  public Corpus(String name) {
    this.folder = Path.of("src/test/resources/rules", name);
  }

  public Stream<Path> ruleFiles() {
    return files(".rules").stream();
  }

  private List<Path> files(String ending) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.toString().endsWith(ending)).sorted().toList();
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

  /** Fails where the text beside {@code file} is missing or another one. */
  public static void expect(Path file, String actual) throws IOException {
    Path expected = Path.of(file.toString().replace(".rules", ".expected"));
    Path kept = Path.of("target/corpus").resolve(file.getParent().getFileName()).resolve(expected.getFileName());
    Files.createDirectories(kept.getParent());
    Files.writeString(kept, actual);
    assertThat(expected).as("expected text, to be copied from %s", kept).exists();
    assertThat(actual).as("what is in %s", kept).isEqualTo(Files.readString(expected));
  }

  /** Fails where an expected text has no rule file. */
  public void expectNoOrphans() {
    assertThat(files(".expected")).allSatisfy(file ->
        assertThat(Path.of(file.toString().replace(".expected", ".rules"))).exists());
  }
}
