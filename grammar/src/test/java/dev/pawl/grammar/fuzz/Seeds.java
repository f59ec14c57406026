package dev.pawl.grammar.fuzz;

import dev.pawl.grammar.corpus.Corpus;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.params.provider.Arguments;

/**
 * The texts that fuzzing starts from because the repository has them already; more inputs are kept for each fuzz test.
 */
final class Seeds {

  private Seeds() {}

  /** Rule files: the right, doubtful and wrong ones of the tests, the library and the demo ride. */
  static List<Path> rules() {
    return Stream.of(Path.of("src/test/resources/rules"), Path.of("../rules"), Path.of("../fixtures/kestrel-ridge"))
        .flatMap(folder -> under(folder, ".rules")).toList();
  }

  /** Structured Text: the demo ride's logic in all its variants. */
  static List<Path> programs() {
    return under(Path.of("../fixtures/kestrel-ridge/logic"), ".st").toList();
  }

  static Stream<Arguments> arguments(List<Path> files) {
    return files.stream().map(file -> Arguments.of(Named.of(file.getFileName().toString(), read(file))));
  }

  private static Stream<Path> under(Path folder, String ending) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> Files.isRegularFile(file) && file.toString().endsWith(ending)).sorted().toList()
          .stream();
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }

  private static byte[] read(Path file) {
    try {
      return Corpus.whole(Files.readString(file)).getBytes(StandardCharsets.UTF_8);
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }
}
