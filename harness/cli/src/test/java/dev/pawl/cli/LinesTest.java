package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** No line of main code is longer than a screen is wide, and none imports what nothing uses. */
class LinesTest {

  private static final Path CHECKOUT = Path.of("..", "..");
  private static final int WIDEST = 120;

  private static List<Path> mainCode() throws IOException {
    try (Stream<Path> modules = Files.list(CHECKOUT.resolve("harness"))) {
      List<Path> folders = Stream.concat(Stream.of(CHECKOUT.resolve("grammar")), modules)
          .map(module -> module.resolve(Path.of("src", "main", "java"))).filter(Files::isDirectory).toList();
      List<Path> files = new ArrayList<>();
      for (Path folder : folders) {
        try (Stream<Path> below = Files.walk(folder)) {
          below.filter(file -> file.toString().endsWith(".java")).forEach(files::add);
        }
      }
      return files;
    }
  }

  @Test
  void areNoWiderThan120Columns() throws IOException {
    List<Path> files = mainCode();
    assertThat(files).hasSizeGreaterThan(400);
    List<String> wide = new ArrayList<>();
    for (Path file : files) {
      List<String> lines = Files.readAllLines(file);
      for (int i = 0; i < lines.size(); i++) {
        if (lines.get(i).codePointCount(0, lines.get(i).length()) > WIDEST) {
          wide.add(CHECKOUT.relativize(file) + ":" + (i + 1));
        }
      }
    }
    assertThat(wide).as("lines over %d columns", WIDEST).isEmpty();
  }

  @Test
  void importNothingThatIsNotUsed() throws IOException {
    Pattern importing = Pattern.compile("(?m)^import (?:static )?[\\w.]+\\.(\\w+);$");
    List<String> unused = new ArrayList<>();
    for (Path file : mainCode()) {
      String text = Files.readString(file);
      importing.matcher(text).results().filter(it -> Pattern.compile("\\b" + it.group(1) + "\\b").matcher(text)
          .results().count() == 1).forEach(it -> unused.add(CHECKOUT.relativize(file) + ": " + it.group()));
    }
    assertThat(unused).isEmpty();
  }
}
