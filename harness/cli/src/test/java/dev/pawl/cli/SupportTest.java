package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is put together for whoever is asked for help. */
class SupportTest {

  @TempDir
  private Path folder;

  private static Map<String, String> parts(Path file) throws IOException {
    Map<String, String> parts = new TreeMap<>();
    try (ZipInputStream in = new ZipInputStream(Files.newInputStream(file))) {
      for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
        parts.put(entry.getName(), new String(in.readAllBytes(), StandardCharsets.UTF_8));
      }
    }
    return parts;
  }

  @Test
  void saysWhatRunsAndNothingOfWhoRunsIt() throws IOException {
    Path file = folder.resolve("support.zip");
    Run run = Run.with(Map.of("PAWL_DETAIL", "1", "SECRET_TOKEN", "hush"), new Interruption(), "support",
        file.toString());
    assertThat(run.status()).as(run.err()).isZero();
    Map<String, String> parts = parts(file);
    assertThat(parts).containsOnlyKeys("about.txt");
    assertThat(run.out()).isEqualTo(file + " holds, and nothing else:\n  about.txt, "
        + parts.get("about.txt").lines().count() + " lines\n");
    assertThat(parts.get("about.txt")).startsWith(VersionText.TEXT).contains("PAWL_DETAIL=1", System.getProperty(
        "java.version")).doesNotContain("hush").doesNotContain(System.getProperty("user.home"));
  }

  @Test
  void takesRulesOnlyWhereTheyAreNamedAndNoTraceBesideThem() throws IOException {
    Files.writeString(folder.resolve("a.rules"), "ride \"A\"\n");
    Files.writeString(folder.resolve("day.csv"), "time_ms,signal,value\n0,a,1\n");
    Path file = folder.resolve("support.zip");
    assertThat(Run.of("support", "--rules", folder.toString(), file.toString()).status()).isZero();
    assertThat(parts(file)).containsOnlyKeys("about.txt", "rules/0-a.rules").containsEntry("rules/0-a.rules",
        "ride \"A\"\n");
  }

  @Test
  void writesOverNothing() throws IOException {
    Path file = Files.writeString(folder.resolve("support.zip"), "mine");
    Run run = Run.of("support", file.toString());
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).startsWith("pawl: " + file);
    assertThat(file).hasContent("mine");
  }
}
