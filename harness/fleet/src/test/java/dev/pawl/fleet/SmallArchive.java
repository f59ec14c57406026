package dev.pawl.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.Console;
import dev.pawl.cli.Interruption;
import dev.pawl.cli.Main;
import dev.pawl.cli.option.ReadingOptions;
import dev.pawl.fleet.cluster.Stores;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.GZIPOutputStream;

/** An archive of two invented small rides, one of which has a brake that gets slower, and pawl's command line. */
record SmallArchive(Path folder) {

  /** Session of the first ride in which its brake is too slow, and so in all after it. */
  static final int FIRST_BROKEN = 21;
  /** One in which it is much slower than in its neighbours, and still shuts in time. */
  static final int ODD = 9;
  static final int SESSIONS = 24;
  static final ReadingOptions AS_IT_IS = new ReadingOptions(Optional.empty(), Optional.empty(), false);
  static final Stores NO_STORES = Stores.of(Map.of(), Path.of("none"));
  private static final LocalDate BEGINS = LocalDate.of(2026, 3, 1);

  /** What a command came to. */
  record Said(int status, String out, String err) {}

  static SmallArchive in(Path folder) throws IOException {
    SmallArchive archive = new SmallArchive(folder);
    archive.write();
    return archive;
  }

  private void write() throws IOException {
    for (String ride : List.of("ratchet", "sprocket")) {
      Files.createDirectories(folder.resolve(ride));
      Files.writeString(folder.resolve(ride + ".rules"), rules(ride));
    }
    List<String> rows = new ArrayList<>(List.of("ride,rules,bindings,session,day,traces"));
    for (int i = 0; i < SESSIONS; i++) {
      rows.add("ratchet,ratchet.rules,,day " + i + "," + day(i) + "," + ratchet(i));
    }
    for (int i = 0; i < 5; i++) {
      Files.writeString(path("sprocket/" + i + ".csv"), i == 2 ? "time_ms,signal,value\n0,stop_pressed\n"
          : trace(200 + i));
    }
    rows.add("sprocket,sprocket.rules,,,,sprocket");
    Files.write(path("fleet.csv"), rows);
  }

  static LocalDate day(int session) {
    return BEGINS.plusDays(5L * session);
  }

  /** Milliseconds from the stop to the standstill. */
  static int stopped(int session) {
    return session == ODD ? 290 : session >= FIRST_BROKEN ? 310 + session : 100 + 3 * session + session % 2;
  }

  private String ratchet(int session) throws IOException {
    String name = "ratchet/" + session + (session % 4 == 0 ? ".csv.gz" : ".csv");
    byte[] text = trace(stopped(session)).getBytes(StandardCharsets.UTF_8);
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    if (session % 4 == 0) {
      try (GZIPOutputStream zip = new GZIPOutputStream(packed)) {
        zip.write(text);
      }
    } else {
      packed.write(text);
    }
    Files.write(path(name), packed.toByteArray());
    return name;
  }

  static String rules(String ride) {
    return """
        ride "%s"
        resolution 1 ms
        input  stop_pressed : bool
        input  gate_open    : bool
        output lift_run     : bool
        rule STOP-01 "the lift stops when the stop is pressed"
          severity critical
          basis practice
          when rises(stop_pressed)
          must not lift_run within 300 ms
        rule GATE-01 "the lift does not run with the gate open"
          severity major
          basis practice
          when rises(gate_open)
          must not lift_run
        """.formatted(ride);
  }

  static String trace(int stopped) {
    return "time_ms,signal,value\n0,stop_pressed,0\n0,gate_open,0\n0,lift_run,1\n5000,stop_pressed,1\n"
        + (5000 + stopped) + ",lift_run,0\n9000,stop_pressed,0\n";
  }

  Path path(String name) {
    return folder.resolve(name);
  }

  Path manifest() {
    return path("fleet.csv");
  }

  /** The fleet's work with the present moment stated, so that its reports can be compared. */
  Said fleet(String out, String... more) {
    List<String> words = new ArrayList<>(List.of("fleet", "archive", manifest().toString(), "--out", path(out)
        .toString(), "--checkpoint", "1"));
    words.addAll(List.of(more));
    return pawl(words);
  }

  static Said pawl(List<String> words) {
    return pawl(words, new Interruption());
  }

  static Said pawl(List<String> words, Interruption interruption) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    PrintStream said = new PrintStream(out, true, StandardCharsets.UTF_8);
    int status = new Main(new Console(said, new PrintStream(err, true, StandardCharsets.UTF_8), Map.of(
        "SOURCE_DATE_EPOCH", "1790000000", "PAWL_DETAIL", "1"), Path.of("../.."), interruption)).run(words
            .toArray(String[]::new));
    said.flush();
    return new Said(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  /** The report.json that {@code pawl check} makes of the sessions of a ride. */
  byte[] checked(String ride, List<String> traces, String... more) throws IOException {
    Path out = path("checked-" + ride);
    List<String> words = new ArrayList<>(List.of("check", "--rules", path(ride + ".rules").toString(), "--out", out
        .toString(), "--quiet"));
    words.addAll(List.of(more));
    traces.forEach(trace -> words.add(path(trace).toString()));
    pawl(words);
    return Files.readAllBytes(out.resolve("report.json"));
  }

  /** The reports of both rides are to the byte what a check of their sessions makes. */
  void hasReportsOfChecksIn(String out) throws IOException {
    assertThat(path(out + "/reports/ratchet/report.json")).hasBinaryContent(checked("ratchet", ratchetTraces()));
    assertThat(path(out + "/reports/sprocket/report.json")).hasBinaryContent(checked("sprocket", List.of("sprocket")));
  }

  /** Adds sessions of more rows to the first ride. */
  void enlarge(int sessions, int rows) throws IOException {
    StringBuilder text = new StringBuilder(trace(150));
    for (int i = 0; i < rows; i++) {
      text.append(9000 + 40L * i).append(",stop_pressed,").append(1 - i % 2).append('\n');
    }
    Files.writeString(path("ratchet/large.csv"), text);
    List<String> more = new ArrayList<>();
    for (int i = 0; i < sessions; i++) {
      more.add("ratchet,ratchet.rules,,large " + i + ",," + "ratchet/large.csv");
    }
    Files.write(manifest(), more, StandardOpenOption.APPEND);
  }

  private List<String> ratchetTraces() {
    List<String> traces = new ArrayList<>();
    for (int i = 0; i < SESSIONS; i++) {
      traces.add("ratchet/" + i + (i % 4 == 0 ? ".csv.gz" : ".csv"));
    }
    return traces;
  }
}
