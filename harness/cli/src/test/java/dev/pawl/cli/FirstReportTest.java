package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The page for newcomers, followed word for word: its blocks are saved, run in a shell and compared in the order in
 * which they stand. A block that names a file is that file, {@code sh} is run, and each line of {@code output} was printed.
 */
class FirstReportTest {

  private static final String FENCE = "```";

  @TempDir
  private Path folder;

  /** A block of the page. */
  private record Block(String kind, String file, String text) {}

  private static List<Block> blocks(String page) {
    List<Block> blocks = new ArrayList<>();
    String[] parts = page.split("(?m)^" + FENCE);
    for (int i = 1; i < parts.length; i += 2) {
      String[] head = parts[i].lines().findFirst().orElse("").split(" ");
      blocks.add(new Block(head[0], head.length > 1 ? head[1] : "", parts[i].substring(parts[i].indexOf('\n') + 1)));
    }
    return blocks;
  }

  @Test
  void thePageDoesWhatItSays() throws Exception {
    Path work = Files.createDirectory(folder.resolve("work"));
    String printed = "";
    int compared = 0;
    for (Block block : blocks(Files.readString(Path.of("../FIRST-REPORT.md")))) {
      if (!block.file().isEmpty()) {
        Files.writeString(work.resolve(block.file()), block.text());
      } else if (block.kind().equals("sh")) {
        printed = run(work, block.text());
      } else {
        assertThat(block.kind()).isEqualTo("output");
        assertThat(printed.lines().toList()).as(printed).containsAll(block.text().lines().toList());
        compared++;
      }
    }
    assertThat(compared).isEqualTo(4);
    assertThat(work.resolve("report/report.html")).content().contains("Gannet Cliff", "RIDE-03-lift_run");
  }

  /** Runs the lines in a shell that knows the command by its name; what goes wrong shows in what was printed. */
  private String run(Path work, String lines) throws IOException, InterruptedException {
    String pawl = PawlProcess.command().stream().map(word -> "'" + word + "'").collect(Collectors.joining(" "));
    String home = Path.of("../..").toAbsolutePath().normalize().toString();
    Path script = Files.writeString(folder.resolve("block.sh"), "set -e\ncd '" + work + "'\npawl() { "
        + pawl.replace("'-cp'", "'-Dpawl.home=" + home + "' '-cp'") + " \"$@\"; }\n" + lines);
    Path printed = folder.resolve("printed");
    Process shell = new ProcessBuilder("sh", script.toString()).redirectErrorStream(true)
        .redirectOutput(printed.toFile()).start();
    int status = shell.waitFor();
    String text = Files.readString(printed);
    assertThat(status).as(text).isZero();
    return text;
  }
}
