package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.keep.Manifest;
import dev.pawl.mqtt.broker.EmbeddedBroker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Disks that are full and folders that cannot be written: what was there stays as it was, and the run says so. */
class DiskTest {

  private static final int KILOBYTES = 400;

  @TempDir
  private Path folder;
  private Path disk;
  private boolean mounted;

  @BeforeEach
  void mount() throws Exception {
    Stand.write(folder);
    Stand.writeDay(folder, 9000);
    disk = Files.createDirectory(folder.resolve("disk"));
    mounted = ends("mount", "-t", "tmpfs", "-o", "size=" + KILOBYTES + "k", "pawl-test", disk.toString());
    Assumptions.assumeTrue(mounted, "a small disk cannot be mounted here; that takes the rights of root");
  }

  @AfterEach
  void unmount() throws Exception {
    if (mounted) {
      assertThat(ends("umount", disk.toString())).isTrue();
    }
  }

  private static boolean ends(String... command) throws Exception {
    try {
      Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
      process.getInputStream().readAllBytes();
      return process.waitFor(20, TimeUnit.SECONDS) && process.exitValue() == 0;
    } catch (IOException e) {
      return false;
    }
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private Run check(String... more) {
    String[] words = {"check", "--quiet", "--rules", path("stand.rules"), "--out", disk.resolve("out").toString(),
        path("day.csv")};
    return Run.of(Stream.concat(Arrays.stream(words), Arrays.stream(more)).toArray(String[]::new));
  }

  private void fill(int kilobytes) throws IOException {
    Files.write(disk.resolve("ballast"), new byte[kilobytes * 1024]);
  }

  private List<String> names() throws IOException {
    try (Stream<Path> files = Files.list(disk)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void aReportThatDoesNotFitLeavesTheOneBefore() throws Exception {
    assertThat(check("--findings", "0").status()).isEqualTo(ExitStatus.RULE_BROKEN);
    String before = Files.readString(disk.resolve("out").resolve(Manifest.NAME));
    for (int room = 0; room < 48; room += 4) {
      long used = disk.toFile().getTotalSpace() / 1024 - disk.toFile().getUsableSpace() / 1024;
      fill((int) (KILOBYTES - used - room));
      Run run = check("--findings", "5000");
      assertThat(run.status()).as("%s", run).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(run.err()).contains("pawl: the report cannot be written: " + disk.resolve("out")
          + ": No space left on device");
      assertThat(Files.readString(disk.resolve("out").resolve(Manifest.NAME))).isEqualTo(before);
      assertThat(Manifest.flaw(disk.resolve("out"))).isEmpty();
      assertThat(names()).containsExactly("ballast", "out");
      Files.delete(disk.resolve("ballast"));
    }
  }

  @Test
  void aKeptTraceThatDoesNotFitIsNotThere() throws Exception {
    Run run = Run.of("replay", "--quiet", "--rules", path("stand.rules"), "--logic", path("lift.st"), "--keep",
        disk.resolve("kept.csv").toString(), path("day.csv"));
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).contains("pawl: --keep: " + disk.resolve("kept.csv") + ": No space left on device");
    assertThat(names()).isEmpty();
  }

  @Test
  void aRecordingThatDoesNotFitEndsWithAWholeRow() throws Exception {
    fill(KILOBYTES - 16);
    Path kept = disk.resolve("kept.csv");
    try (EmbeddedBroker broker = EmbeddedBroker.start();
        PawlProcess record = PawlProcess.start(folder, "record", "--rules", path("stand.rules"), "--broker",
            broker.address().toString(), "--keep", kept.toString())) {
      record.awaitWords("pawl: listening to");
      Feeder.send(broker.address().port(), IntStream.range(0, 1000)
          .mapToObj(i -> new String[] {"ride/lift_run", Integer.toString(i % 2)})
          .toArray(String[][]::new), false);
      assertThat(record.end()).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(record.err()).contains("pawl: recording ended early: No space left on device");
    }
    assertThat(Files.readString(kept)).endsWith(",good\n").contains("lift_run");
    assertThat(Run.with(Map.of(), new Interruption(), "check", "--quiet", "--rules", path("stand.rules"),
        kept.toString()).status())
        .isNotEqualTo(ExitStatus.WRONG_INPUT);
  }

  @Test
  void aFolderThatCannotBeWrittenIsSaid() throws Exception {
    assertThat(check("--findings", "0").status()).isEqualTo(ExitStatus.RULE_BROKEN);
    String before = Files.readString(disk.resolve("out").resolve(Manifest.NAME));
    assertThat(ends("mount", "-o", "remount,ro", disk.toString())).isTrue();
    assertThat(check().err()).contains("pawl: the report cannot be written: " + disk.resolve("out"))
        .contains("Read-only file system");
    Run replay = Run.of("replay", "--quiet", "--rules", path("stand.rules"), "--logic", path("lift.st"), "--keep",
        disk.resolve("kept.csv").toString(), path("day.csv"));
    assertThat(replay.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(replay.err()).contains("Read-only file system");
    try (EmbeddedBroker broker = EmbeddedBroker.start()) {
      Run record = Run.of("record", "--rules", path("stand.rules"), "--broker", broker.address().toString(), "--keep",
          disk.resolve("kept.csv").toString());
      assertThat(record.status()).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(record.err()).contains("pawl: --keep: " + disk.resolve("kept.csv") + ": ")
          .contains("Read-only file system");
    }
    assertThat(Files.readString(disk.resolve("out").resolve(Manifest.NAME))).isEqualTo(before);
    assertThat(names()).containsExactly("out");
  }
}
