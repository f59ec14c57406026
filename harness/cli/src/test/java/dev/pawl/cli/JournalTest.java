package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.command.CheckJob;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.ReadingOptions;
import dev.pawl.cli.option.ReportOptions;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.report.ReportFormat;
import dev.pawl.run.Controller;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A check over many traces that was ended goes on where it was, and its report is the same as one made in one go. */
class JournalTest {

  private static final int FEW = 30;
  /** So many are judged before an interrupt, one of which could not be judged. */
  private static final int TOLD = 20;
  private static final int FINDINGS = 20;

  @TempDir
  private Path folder;
  private Path journal;

  @BeforeEach
  void write() throws IOException {
    journal = folder.resolve("out.judged");
    Stand.write(folder);
    Files.createDirectory(folder.resolve("days"));
    writeTraces(FEW);
  }

  private void writeTraces(int count) throws IOException {
    int stops = 10;
    Stand.writeDay(folder, stops);
    String day = Files.readString(folder.resolve("day.csv"));
    for (int i = 0; i < count; i++) {
      Files.writeString(trace(i), day + (stops * 500 + i) + ",counter," + (i % 3 - 1) + "\n");
    }
    Files.writeString(trace(7), "time_ms,signal,value\n0,lift_run,perhaps\n");
  }

  private Path trace(int number) {
    return folder.resolve("days/%03d.csv".formatted(number));
  }

  private String[] words(String... more) {
    List<String> words = new ArrayList<>(List.of("check", "--quiet", "--jobs", "1", "--rules",
        folder.resolve("stand.rules").toString(), "--out", folder.resolve("out").toString()));
    words.addAll(List.of(more));
    words.add(folder.resolve("days").toString());
    return words.toArray(String[]::new);
  }

  private static String took(int count, int of) {
    return "pawl: " + count + " of " + of
        + " traces were judged before, by a run that did not end; their results were taken over\n";
  }

  /** All files of a report but for the moment it was made. */
  private Map<String, String> report() throws IOException {
    Map<String, String> files = new TreeMap<>();
    for (String name : ReportFormat.fileNames()) {
      files.put(name, Files.readString(folder.resolve("out").resolve(name))
          .replaceAll("20\\d\\d-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\dZ", "NOW"));
    }
    return files;
  }

  private void requireSameAsInOneGo() throws IOException {
    assertThat(journal).doesNotExist();
    Map<String, String> resumed = report();
    assertThat(Run.of(words()).err()).doesNotContain("judged before");
    assertThat(resumed).isEqualTo(report());
    assertThat(resumed.get("rules.html")).contains("<svg class=\"timing\"");
  }

  /** Whole lines of the journal behind its first. */
  private int judged() {
    try {
      return Files.exists(journal) ? Math.max(0, (int) Files.readString(journal).chars().filter(c -> c == '\n')
          .count() - 1) : 0;
    } catch (IOException e) {
      return 0;
    }
  }

  @Test
  void aKilledCheckGoesOnWhereItWas() throws Exception {
    int traces = 500;
    writeTraces(traces);
    int before = 0;
    for (int more : new int[] {50, 150}) {
      try (PawlProcess process = PawlProcess.start(folder, words())) {
        process.await(() -> judged() >= more, more + " traces are judged");
        process.signal("KILL");
        process.end();
      }
      assertThat(judged()).isBetween(Math.max(more, before), traces - 2);
      assertThat(folder.resolve("out")).doesNotExist();
      before = judged();
    }
    try (PawlProcess process = PawlProcess.start(folder, words())) {
      assertThat(process.end()).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(process.err()).contains(took(before, traces)).contains("007.csv: ");
    }
    requireSameAsInOneGo();
  }

  /** Leaves a journal, since it is interrupted after so many traces; returns what it says. */
  private String interrupted() {
    CheckOptions options = new CheckOptions(new RuleOptions(List.of(folder.resolve("stand.rules").toString()),
        List.of()), List.of(folder.resolve("days").toString()),
        new ReadingOptions(Optional.empty(), Optional.empty(), false),
        new ReportOptions(Optional.of(folder.resolve("out").toString()), false, FINDINGS, false, true), 1);
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    PrintStream err = new PrintStream(said, true, StandardCharsets.UTF_8);
    Interruption interruption = new Interruption();
    AtomicInteger told = new AtomicInteger();
    try (CheckJob job = CheckJob.begin(options, new Console(err, err, Map.of(), folder, interruption))) {
      job.judge(Controller.NONE, job.traces(), result -> {
        if (told.incrementAndGet() == TOLD) {
          interruption.request();
        }
      });
    }
    assertThat(judged()).isEqualTo(TOLD - 1);
    return said.toString(StandardCharsets.UTF_8);
  }

  @Test
  void anInterruptedCheckSaysThatItCanGoOn() throws IOException {
    assertThat(interrupted()).contains("pawl: what was judged is kept in " + journal
        + "; the same command goes on from there\n");
    assertThat(Files.readString(folder.resolve("out/report.json"))).contains("\"partial\" : true");
    assertThat(Run.of(words()).err()).contains(took(TOLD - 1, FEW));
    requireSameAsInOneGo();
  }

  @Test
  void aTornLineIsCutOffAndJudgedAgain() throws IOException {
    interrupted();
    byte[] whole = Files.readAllBytes(journal);
    for (String torn : List.of("0123456789abcdef", "0123\t{\"path\":\"", "\u0000\u0000\u0000\n",
        "no line of a journal\n", "0123\t{}\n")) {
      Files.write(journal, whole);
      Files.writeString(journal, torn, StandardOpenOption.APPEND);
      assertThat(Run.of(words()).err()).as(torn).contains(took(TOLD - 1, FEW));
    }
    Files.write(journal, Arrays.copyOf(whole, whole.length - 1));
    assertThat(Run.of(words()).err()).contains(took(TOLD - 2, FEW));
    Files.writeString(journal, "pawl-ju");
    assertThat(Run.of(words()).err()).doesNotContain("judged before");
    requireSameAsInOneGo();
  }

  @Test
  void whatHasChangedIsJudgedAgain() throws IOException {
    interrupted();
    byte[] left = Files.readAllBytes(journal);
    Files.writeString(trace(3), "999999,lift_run,0\n", StandardOpenOption.APPEND);
    assertThat(Run.of(words()).err()).contains(took(TOLD - 2, FEW));
    for (String[] other : new String[][] {words("--findings", "3"), words("--lenient"), words("--time-unit", "ms")}) {
      Files.write(journal, left);
      assertThat(Run.of(other).err()).doesNotContain("judged before");
    }
    Files.write(journal, left);
    Path rules = folder.resolve("stand.rules");
    Files.writeString(rules, Files.readString(rules).replace("100 ms", "90 ms"));
    assertThat(Run.of(words()).err()).doesNotContain("judged before");
    requireSameAsInOneGo();
  }

  @Test
  void somethingElseOfThatNameStays() throws IOException {
    Files.writeString(journal, "somebody's own\n");
    Run run = Run.of(words());
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).isEqualTo("pawl: --out: " + journal
        + ": is not what pawl keeps there while it judges, and stays; move it away or name" + " another folder\n");
    assertThat(journal).hasContent("somebody's own\n");
    Path target = Files.writeString(folder.resolve("target"), "pawl-judged ");
    Files.delete(journal);
    Files.createSymbolicLink(journal, target);
    assertThat(Run.of(words()).status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(target).hasContent("pawl-judged ");
  }
}
