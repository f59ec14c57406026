package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.keep.Manifest;
import dev.pawl.mqtt.broker.EmbeddedBroker;
import dev.pawl.run.files.Digests;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Processes that write are killed at random instants, each on what the one before left. An event counts as acknowledged
 * once its row, with its line break, stands in the file that others read: no such row may be lost. No report or kept
 * trace may be there in part, and no other file may change.
 */
abstract class Crashes {

  private static final int DAYS = 400;

  @TempDir
  private Path folder;
  private final SplittableRandom random = new SplittableRandom();
  private Map<String, String> others;

  /** How many processes are killed in each test. */
  abstract int kills();

  @BeforeEach
  void write() throws IOException {
    Stand.write(folder);
    Stand.writeDay(folder, 10_000);
    Files.createDirectory(folder.resolve("notes"));
    Files.writeString(folder.resolve("notes/report.json"), "somebody's own\n");
    Files.writeString(folder.resolve("kept.csv.old"), "somebody's own\n");
    others = others();
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  /** All files but those which are written, with their hashes. */
  private Map<String, String> others() throws IOException {
    Map<String, String> files = new LinkedHashMap<>();
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path file : all.filter(Files::isRegularFile).sorted().toList()) {
        String name = folder.relativize(file).toString();
        if (!name.matches("out(\\.unfinished|\\.replaced)?/.*|out\\.judged|kept\\.csv(\\.unfinished)?|pawl\\d+\\.(out|err)")) {
          files.put(name, Digests.sha256(file));
        }
      }
    }
    return files;
  }

  /** Waits for a random time, so short that some kills come before what they shall hit and some after it. */
  private void hesitate(int most) throws InterruptedException {
    TimeUnit.MICROSECONDS.sleep(random.nextInt(most * 1000));
  }

  private String whole(Path file) throws IOException {
    String text = Files.exists(file) ? Files.readString(file) : "";
    return text.substring(0, text.lastIndexOf('\n') + 1);
  }

  private void say(String what) {
    System.out.println("crash campaign: " + kills() + " x kill -9 of " + what);
  }

  @ParameterizedTest
  @ValueSource(strings = {"record", "watch"})
  void noAcknowledgedEventIsLost(String command) throws Exception {
    Path kept = folder.resolve("kept.csv");
    int rows = 0;
    int torn = 0;
    try (EmbeddedBroker broker = EmbeddedBroker.start(); Counter counter = new Counter(broker.address().port())) {
      for (int kill = 0; kill < kills(); kill++) {
        String before = whole(kept);
        String acknowledged;
        try (PawlProcess process = PawlProcess.start(folder, command, "--rules", path("stand.rules"), "--broker",
            broker.address().toString(), "--append", "--keep", kept.toString())) {
          process.await(() -> Files.exists(kept) && kept.toFile().length() > before.length() + 200,
              "something is recorded");
          hesitate(200);
          acknowledged = whole(kept);
          process.signal("KILL");
          process.end();
        }
        String left = Files.readString(kept);
        assertThat(acknowledged).startsWith(before);
        assertThat(left).startsWith(acknowledged);
        assertThat(others()).isEqualTo(others);
        rows += (int) acknowledged.substring(before.length()).lines().count();
        torn += left.endsWith("\n") ? 0 : 1;
      }
      assertThat(counter.trouble()).isEmpty();
    }
    String all = whole(kept);
    Files.writeString(kept, all);
    requireConsecutive(all.lines().toList());
    Run check = Run.of("check", "--quiet", "--rules", path("stand.rules"), kept.toString());
    assertThat(check.status()).as("%s", check).isEqualTo(ExitStatus.NOTHING_BROKEN);
    assertThat(check.err()).isEmpty();
    say("pawl " + command + ": " + rows + " acknowledged rows, none lost; " + torn + " torn rows cut off");
  }

  /** Between two holes no number is missing. */
  private static void requireConsecutive(List<String> rows) {
    long last = -1;
    for (String row : rows.subList(1, rows.size())) {
      String[] cells = row.split(",");
      long number = cells[3].equals("bad") ? -1 : Math.round(Double.parseDouble(cells[2]));
      assertThat(last < 0 || number < 0 || number == last + 1).as(row + " after " + last).isTrue();
      last = number;
    }
  }

  /** Somebody who counts on a topic of the broker, a message every few milliseconds. */
  private static final class Counter implements AutoCloseable {

    private final Thread thread;
    private volatile boolean stop;
    private volatile String trouble = "";

    Counter(int port) {
      thread = new Thread(() -> {
        try {
          Feeder.count(port, "ride/counter", () -> stop);
        } catch (RuntimeException | InterruptedException | AssertionError e) {
          trouble = e.toString();
        }
      }, "test-counter");
      thread.start();
    }

    String trouble() {
      return trouble;
    }

    @Override
    public void close() throws InterruptedException {
      stop = true;
      thread.join();
    }
  }

  /** After which sign of a report's coming a kill comes, and how long after it at most. */
  private enum Instant {
    CLAIMED(1500), WRITING(60), PUT_IN_PLACE(3);

    private final int most;

    Instant(int most) {
      this.most = most;
    }

    boolean hasCome(Path unfinished) {
      Path manifest = unfinished.resolve(Manifest.NAME);
      return switch (this) {
        case CLAIMED -> Files.exists(manifest);
        case WRITING -> Files.exists(unfinished.resolve("report.json"));
        case PUT_IN_PLACE -> manifest.toFile().length() > 0;
      };
    }
  }

  private int check(Path out, int findings) {
    return Run.of("check", "--quiet", "--rules", path("stand.rules"), "--findings", Integer.toString(findings), "--out",
        out.toString(), path("day.csv")).status();
  }

  @Test
  void noReportIsThereInPart() throws Exception {
    Path out = folder.resolve("out");
    int absent = 0;
    int replaced = 0;
    assertThat(check(out, 1)).isEqualTo(ExitStatus.RULE_BROKEN);
    String before = Files.readString(out.resolve(Manifest.NAME));
    for (int kill = 0; kill < kills(); kill++) {
      Instant instant = Instant.values()[kill % Instant.values().length];
      try (PawlProcess process = PawlProcess.start(folder, "check", "--quiet", "--rules", path("stand.rules"),
          "--findings", Integer.toString(1 + kill % 400), "--out", out.toString(), path("day.csv"))) {
        process.awaitOrEnd(() -> instant.hasCome(folder.resolve("out.unfinished")));
        hesitate(instant.most);
        process.signal("KILL");
        process.end();
      }
      if (Files.exists(out)) {
        assertThat(Manifest.flaw(out)).isEmpty();
      } else if (Files.exists(folder.resolve("out.replaced"))) {
        assertThat(Manifest.flaw(folder.resolve("out.replaced"))).isEmpty();
      }
      absent += Files.exists(out) ? 0 : 1;
      String now = Files.exists(out) ? Files.readString(out.resolve(Manifest.NAME)) : "";
      replaced += now.equals(before) ? 0 : 1;
      before = now;
      assertThat(others()).isEqualTo(others);
    }
    assertThat(check(out, 1)).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(Manifest.flaw(out)).isEmpty();
    say("pawl check --out: no report in part; " + replaced + " whole new ones before the kill, none there after "
        + absent);
  }

  private Run checkDays() {
    return Run.of("check", "--quiet", "--jobs", "1", "--rules", path("stand.rules"), "--out", path("out"),
        path("days"));
  }

  /** The report but for the moment it was made. */
  private String report() throws IOException {
    String place = Files.exists(folder.resolve("out")) ? "out" : "out.replaced";
    return Files.readString(folder.resolve(place).resolve("report.json"))
        .replaceFirst("20\\d\\d-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\dZ", "NOW");
  }

  private long judged() {
    try {
      return whole(folder.resolve("out.judged")).lines().count();
    } catch (IOException e) {
      return 0;
    }
  }

  @Test
  void nothingOfACheckOverManyTracesIsJudgedTwiceOrNotAtAll() throws Exception {
    Files.createDirectory(folder.resolve("days"));
    for (int day = 0; day < DAYS; day++) {
      Files.writeString(folder.resolve("days/%03d.csv".formatted(day)), "time_ms,signal,value\n0,lift_run,1\n1,counter,"
          + (day % 3 - 1) + "\n");
    }
    others = others();
    assertThat(checkDays().status()).isEqualTo(ExitStatus.RULE_BROKEN);
    String expected = report();
    int ended = 0;
    for (int kill = 0; kill < kills(); kill++) {
      long before = judged();
      try (PawlProcess process = PawlProcess.start(folder, "check", "--quiet", "--jobs", "1", "--rules",
          path("stand.rules"), "--out", path("out"), path("days"))) {
        process.awaitOrEnd(() -> judged() > before);
        hesitate(600);
        process.signal("KILL");
        process.end();
      }
      boolean isMade = before > 0 && judged() == 0;
      ended += isMade ? 1 : 0;
      assertThat(judged() >= before || isMade).as(before + " judged before the kill, " + judged() + " after it")
          .isTrue();
      assertThat(report()).isEqualTo(expected);
      assertThat(others()).isEqualTo(others);
    }
    long taken = Math.max(0, judged() - 1);
    Run last = checkDays();
    assertThat(last.err()).contains(taken == 0 ? "" : taken + " of " + DAYS + " traces were judged before");
    assertThat(report()).isEqualTo(expected);
    say("pawl check --out over " + DAYS + " traces: nothing lost of what was judged; " + ended
        + " reports made in spite of kills, each the same");
  }

  @Test
  void noKeptTraceIsThereInPart() throws Exception {
    Path kept = folder.resolve("kept.csv");
    int finished = 0;
    for (int kill = 0; kill < kills(); kill++) {
      String scan = "1" + kill % 10 + "ms";
      String before = Files.exists(kept) ? Digests.sha256(kept) : "";
      try (PawlProcess process = PawlProcess.start(folder, "replay", "--quiet", "--rules", path("stand.rules"),
          "--logic", path("lift.st"), "--scan", scan, "--replace", "--keep", kept.toString(), path("day.csv"))) {
        process.awaitOrEnd(() -> Files.exists(folder.resolve("kept.csv.unfinished")));
        hesitate(1500);
        process.signal("KILL");
        process.end();
      }
      if (Files.exists(kept)) {
        String text = Files.readString(kept);
        assertThat(text.lines().reduce((first, second) -> second))
            .hasValueSatisfying(last -> assertThat(last).startsWith("# end: "));
        assertThat(text).endsWith("\n");
        finished += Digests.sha256(kept).equals(before) ? 0 : 1;
      }
      assertThat(others()).isEqualTo(others);
    }
    say("pawl replay --keep: no trace in part; " + finished + " whole new ones before the kill");
  }
}
