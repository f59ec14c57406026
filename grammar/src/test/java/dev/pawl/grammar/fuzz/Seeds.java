package dev.pawl.grammar.fuzz;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.params.provider.Arguments;

/** The texts that fuzzing starts from: those that the repository already has, and the inputs kept for a class of fuzz tests. */
final class Seeds {

  private static final Path RESOURCES = Path.of("src/test/resources");

  private Seeds() {}

  /** Rule files: the right, doubtful and wrong ones of the tests, the library and the demo ride. */
  static List<Path> rules() {
    return Stream.of(RESOURCES.resolve("rules"), Path.of("../rules"), Path.of("../fixtures/kestrel-ridge"), kept("RuleFuzzTest"))
        .flatMap(folder -> under(folder, folder.endsWith("RuleFuzzTestInputs") ? "" : ".rules")).toList();
  }

  /** Structured Text: the demo ride's logic in all its variants. */
  static List<Path> programs() {
    return Stream.of(Path.of("../fixtures/kestrel-ridge/logic"), kept("LogicFuzzTest"))
        .flatMap(folder -> under(folder, folder.endsWith("LogicFuzzTestInputs") ? "" : ".st")).toList();
  }

  static Stream<Arguments> arguments(List<Path> files) {
    return files.stream().map(file -> Arguments.of(Named.of(file.getFileName().toString(), read(file))));
  }

  static List<String> texts(List<Path> files) {
    return files.stream().map(file -> new String(read(file), StandardCharsets.UTF_8)).toList();
  }

  private static Path kept(String test) {
    return RESOURCES.resolve("dev/pawl/grammar/fuzz").resolve(test + "Inputs");
  }

  private static Stream<Path> under(Path folder, String ending) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> Files.isRegularFile(file) && file.toString().endsWith(ending)).sorted().toList().stream();
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }

  private static byte[] read(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException problem) {
      throw new UncheckedIOException(problem);
    }
  }
}
