package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.mqtt.broker.EmbeddedBroker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What {@code --keep} writes, continues and replaces, and what it leaves alone. */
class KeepTest {

  private static final String HEADER = "time,signal,value,quality\n";
  private static final String YESTERDAY = HEADER + "2026-01-05T08:00:00.000000000Z,estop_chain,1,good\n"
      + "2026-01-05T08:00:00.000000000Z,lift_run,1,good\n2026-01-05T08:00:09.000000000Z,estop_chain,0,good\n";
  private static final String NO_BROKER = "mqtt://127.0.0.1:1";

  @TempDir
  private Path folder;

  @BeforeEach
  void writeRules() throws IOException {
    Stand.write(folder);
    write("incident.csv", "time_ms,signal,value\n0,estop_chain,1\n1000,estop_chain,0\n2000,estop_chain,1\n");
  }

  private void write(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private String text(String name) throws IOException {
    return Files.readString(folder.resolve(name));
  }

  private List<String> names() throws IOException {
    try (var files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).filter(name -> !name.matches("pawl.*\\.(out|err)"))
          .sorted().toList();
    }
  }

  private String[] feed(String command, String broker, String file, String... more) {
    List<String> words = new ArrayList<>(List.of(command, "--rules", path("stand.rules"), "--broker", broker, "--keep",
        path(file)));
    words.addAll(Arrays.asList(more));
    return words.toArray(String[]::new);
  }

  private Run replay(String... more) {
    List<String> words = new ArrayList<>(List.of("replay", "--quiet", "--rules", path("stand.rules"), "--logic",
        path("lift.st")));
    words.addAll(Arrays.asList(more));
    words.add(path("incident.csv"));
    return Run.of(words.toArray(String[]::new));
  }

  private void refused(Run run, String file, String why) {
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).contains("pawl: --keep: " + path(file) + ": " + why);
  }

  @ParameterizedTest
  @CsvSource({"record", "watch"})
  void nothingIsWrittenOverAFileThatIsThere(String command) throws IOException {
    write("yesterday.csv", YESTERDAY);
    refused(Run.of(feed(command, NO_BROKER, "yesterday.csv")), "yesterday.csv",
        "is there already, and nothing is written over it; --append");
    assertThat(text("yesterday.csv")).isEqualTo(YESTERDAY);
  }

  @ParameterizedTest
  @CsvSource({"record", "watch"})
  void withNoBrokerNoFileIsMadeAndNoRecordingChanged(String command) throws IOException {
    write("yesterday.csv", YESTERDAY + "2026-01-05T08:00:11.0000");
    List<String> before = names();
    assertThat(Run.of(feed(command, NO_BROKER, "new.csv")).err()).contains("127.0.0.1:1");
    assertThat(Run.of(feed(command, NO_BROKER, "yesterday.csv", "--append")).err()).contains("127.0.0.1:1");
    assertThat(names()).isEqualTo(before);
    assertThat(text("yesterday.csv")).isEqualTo(YESTERDAY + "2026-01-05T08:00:11.0000");
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "stand.rules | this run reads that file; name another",
      "lift.st     | is no recording of pawl, whose first line is time,signal,value,quality; name another file",
      "link.csv    | is a link; name the file itself",
      "nowhere.csv | is a link; name the file itself",
      "sub         | is no file that a trace could be kept in",
      "other.csv   | 1 problem: 1 x unbound tag (first in line 2); it is continued only with the signals it was "
          + "recorded with",
      "wrong.csv   | 1 problem: 1 x wrong value (first in line 2); it is continued only with the signals it was "
          + "recorded with"})
  void onlyARecordingOfTheseSignalsIsContinued(String file, String why) throws IOException {
    write("yesterday.csv", YESTERDAY);
    write("other.csv", HEADER + "2026-01-05T08:00:00Z,gate_open,1,good\n");
    write("wrong.csv", HEADER + "2026-01-05T08:00:00Z,lift_run,maybe,good\n");
    Files.createSymbolicLink(folder.resolve("link.csv"), folder.resolve("yesterday.csv"));
    Files.createSymbolicLink(folder.resolve("nowhere.csv"), folder.resolve("gone.csv"));
    Files.createDirectory(folder.resolve("sub"));
    byte[] before = Files.isRegularFile(folder.resolve(file)) ? Files.readAllBytes(folder.resolve(file)) : null;
    refused(Run.of(feed("record", NO_BROKER, file, "--append")), file, why);
    assertThat(Files.isRegularFile(folder.resolve(file)) ? Files.readAllBytes(folder.resolve(file)) : null)
        .isEqualTo(before);
  }

  @Test
  void whereToAppendIsAskedFor() {
    Run run = Run.of("watch", "--rules", path("stand.rules"), "--broker", NO_BROKER, "--append");
    assertThat(run.err()).isEqualTo("pawl: --append: say with --keep which recording is continued\n");
  }

  /**
   * What was known at the end of the first part is not taken for known in the hole: the stop is neither met nor missed.
   */
  @Test
  void aRecordingIsContinuedAfterItsLastWholeRowAndNothingIsKnownInBetween() throws Exception {
    write("kept.csv", YESTERDAY + "2026-01-05T08:00:09.05,lift_r");
    Run first = record(7);
    assertThat(first.status()).isZero();
    assertThat(first.err()).contains("kept.csv: the last row is torn and is cut off: 2026-01-05T08:00:09.05,lift_r\n",
        "continued after 4 lines");
    List<String> lines = text("kept.csv").lines().toList();
    assertThat(String.join("\n", lines.subList(0, 4)) + "\n").isEqualTo(YESTERDAY);
    assertThat(lines.subList(4, 6)).containsExactly("2026-01-05T08:00:09.000000001Z,estop_chain,,bad",
        "2026-01-05T08:00:09.000000001Z,lift_run,,bad");
    assertThat(lines.get(6)).endsWith(",lift_run,0,good");
    assertThat(lines.get(7)).startsWith("# end: ");
    assertThat(verdict()).contains("UNDECIDED  STOP-01");
    assertThat(record(10).err()).contains("continued after 7 lines");
    assertThat(text("kept.csv").lines().filter(line -> line.startsWith("# end"))).hasSize(1);
    assertThat(verdict()).contains("UNDECIDED  STOP-01");
  }

  /** Appending to what is not there, or was killed before its first line was whole, begins it. */
  @ParameterizedTest
  @CsvSource({"new", "empty", "torn"})
  void aRecordingThatHasNothingYetIsBegun(String state) throws Exception {
    if (!state.equals("new")) {
      write("kept.csv", state.equals("empty") ? "" : "time,sig");
    }
    assertThat(record(2).status()).isZero();
    assertThat(text("kept.csv")).startsWith(HEADER + "20").contains(",lift_run,0,good\n# end: ");
  }

  private String verdict() {
    Run check = Run.of("check", "--quiet", "--rules", path("stand.rules"), path("kept.csv"));
    assertThat(check.err()).isEmpty();
    return check.out();
  }

  /** Records one value, until the file has so many lines. */
  private Run record(int lines) throws Exception {
    Interruption interruption = new Interruption();
    try (EmbeddedBroker broker = EmbeddedBroker.start()) {
      Feeder.send(broker.address().port(), new String[][] {{"ride/lift_run", "0"}}, true);
      CompletableFuture<Run> run = CompletableFuture.supplyAsync(() -> Run.with(Map.of(), interruption,
          feed("record", broker.address().toString(), "kept.csv", "--append")));
      Awaitility.await().atMost(Duration.ofSeconds(60)).until(() -> run.isDone() || lines("kept.csv") >= lines);
      interruption.request();
      return run.get(60, TimeUnit.SECONDS);
    }
  }

  private long lines(String name) {
    try {
      return text(name).lines().count();
    } catch (IOException e) {
      return 0;
    }
  }

  @Test
  void aSecondRecorderOfOneFileSaysSoAtOnce() throws Exception {
    try (EmbeddedBroker broker = EmbeddedBroker.start();
        PawlProcess first = PawlProcess.start(folder, feed("record", broker.address().toString(), "kept.csv"))) {
      first.awaitWords("pawl: listening to");
      refused(Run.of(feed("record", broker.address().toString(), "kept.csv", "--append")), "kept.csv",
          "another pawl is writing it");
      refused(Run.of(feed("watch", broker.address().toString(), "kept.csv")), "kept.csv", "is there already");
      Feeder.send(broker.address().port(), new String[][] {{"ride/lift_run", "0"}}, false);
      first.await(() -> lines("kept.csv") == 2, "the first goes on");
    }
  }

  @Test
  void aRecordingIsNotContinuedWithEarlierTimes() throws Exception {
    write("kept.csv", HEADER + "2040-01-05T08:00:00Z,lift_run,1,good\n");
    Run run = record(Integer.MAX_VALUE);
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).contains("recording ended early: a value came whose time is not after the end of the "
        + "recording that is continued");
    assertThat(text("kept.csv")).isEqualTo(HEADER
        + "2040-01-05T08:00:00Z,lift_run,1,good\n2040-01-05T08:00:00.000000001Z,lift_run,,bad\n");
  }

  @Test
  void aReplayKeepsNothingOverAFileThatIsThere() throws IOException {
    String incident = text("incident.csv");
    refused(replay("--keep", path("incident.csv")), "incident.csv", "this run reads that file; name another");
    refused(replay("--keep", path("lift.st"), "--replace"), "lift.st", "this run reads that file; name another");
    Files.createLink(folder.resolve("hard.csv"), folder.resolve("incident.csv"));
    refused(replay("--keep", path("hard.csv"), "--replace"), "hard.csv", "this run reads that file; name another");
    Files.createSymbolicLink(folder.resolve("link.csv"), folder.resolve("passwords"));
    write("passwords", "user a\npassword b\n");
    refused(replay("--keep", path("link.csv"), "--replace"), "link.csv", "is a link; name the file itself");
    refused(replay("--keep", path("passwords")), "passwords",
        "is there already, and nothing is written over it; --replace");
    refused(replay("--keep", path("passwords"), "--replace"), "passwords",
        "is no trace that pawl kept, and stays; name another file");
    assertThat(text("incident.csv")).isEqualTo(incident);
    assertThat(text("passwords")).isEqualTo("user a\npassword b\n");
  }

  @Test
  void aKeptTraceIsReplacedWhenToldAndIsWholeOrNotThere() throws IOException {
    assertThat(replay("--keep", path("kept.csv")).status()).isZero();
    String kept = text("kept.csv");
    assertThat(kept).contains("# end: ");
    refused(replay("--keep", path("kept.csv")), "kept.csv", "is there already");
    write("kept.csv.unfinished", "time_ns,signal,value,quality\n0,estop_");
    write("incident.csv", text("incident.csv") + "3000,estop_chain,0\n");
    assertThat(replay("--keep", path("kept.csv"), "--replace").status()).isZero();
    assertThat(text("kept.csv")).contains("# end: ").isNotEqualTo(kept);
    write("other.csv.unfinished", "somebody's own\n");
    refused(replay("--keep", path("other.csv")), "other.csv.unfinished", "is no trace that pawl kept, and stays");
    assertThat(names()).doesNotContain("kept.csv.unfinished", "other.csv").contains("other.csv.unfinished");
  }

  @Test
  void ofATraceThatIsRefusedNothingIsKept() throws IOException {
    write("incident.csv", "time_ms,signal,value\n0,estop_chain,1\n1000,estop_chain,maybe\n");
    assertThat(replay("--keep", path("kept.csv")).status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(names()).doesNotContain("kept.csv", "kept.csv.unfinished");
  }
}
