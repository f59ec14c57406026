package dev.pawl.fleet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.cli.CommandException;
import dev.pawl.fleet.command.Submitted;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The program that Flink's own command submits. Where nothing submitted it, Flink does its work in this process. */
class SubmittedTest {

  @TempDir
  private Path folder;

  @Test
  void doesTheWorkWhereFlinkSays() throws Exception {
    SmallArchive archive = SmallArchive.in(folder);
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    PrintStream usual = System.out;
    System.setOut(new PrintStream(said, true, StandardCharsets.UTF_8));
    try {
      Submitted.main(new String[] {"archive", archive.manifest().toString(), "--out", folder.resolve("out").toString(),
          "--slots", "2", "--checkpoint", "1"});
    } finally {
      System.setOut(usual);
    }
    assertThat(said.toString(StandardCharsets.UTF_8)).endsWith("pawl: exit status 2\n");
    assertThat(withoutDay(Files.readString(folder.resolve("out/reports/sprocket/report.json")))).isEqualTo(withoutDay(
        new String(archive.checked("sprocket", List.of("sprocket")), StandardCharsets.UTF_8)));
  }

  private static String withoutDay(String report) {
    return report.replaceFirst("\"created\" : \"[^\"]*\"", "");
  }

  @Test
  void theClusterIsNotChosenOnceMore() throws Exception {
    SmallArchive archive = SmallArchive.in(folder);
    assertThatThrownBy(() -> Submitted.main(new String[] {"archive", archive.manifest().toString(), "--out", folder
        .resolve("out").toString(), "--workers", "2"})).isInstanceOf(CommandException.class).hasMessage("--workers,"
            + " --cluster and --page: the work is done by the cluster to which it was submitted; leave them out");
  }
}
