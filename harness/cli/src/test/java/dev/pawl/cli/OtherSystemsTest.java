package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What other systems do otherwise, as far as this one can do it too: line breaks, paths, blanks in names, letters. */
class OtherSystemsTest {

  private static final String RULES = """
      language 1
      ride "Pr\u00fcfstand \u201eNord\u201c"
      use "parts/stop.rules"
      input estop_chain : bool
      output lift_run   : bool
      """;

  private static final String STOP = """
      rule STOP-01 "Not-Halt h\u00e4lt den Lift"
        basis    practice
        severity critical
        when     falls(estop_chain)
        must     not lift_run within 500 ms
      """;

  private static final String TRACE = """
      time_ms,signal,value
      0,Not-Halt,1
      0,lift_run,1
      1000,Not-Halt,0
      1750,lift_run,0
      2000,lift_run,0
      """;

  private static final String BINDINGS = """
      signals
        estop_chain from "Not-Halt"
      """;

  @TempDir
  private Path folder;

  @BeforeEach
  void write() throws IOException {
    write("lf", RULES, STOP, TRACE, BINDINGS);
  }

  private Path write(String name, String... texts) throws IOException {
    Path ride = Files.createDirectories(folder.resolve(name));
    Files.createDirectories(ride.resolve("parts"));
    Files.writeString(ride.resolve("ride.rules"), texts[0]);
    Files.writeString(ride.resolve("parts/stop.rules"), texts[1]);
    Files.writeString(ride.resolve("day.csv"), texts[2]);
    Files.writeString(ride.resolve("site.bindings"), texts[3]);
    return ride;
  }

  private static String[] check(Path ride) {
    return new String[] {"check", "--rules", ride.resolve("ride.rules").toString(), "--bindings",
        ride.resolve("site.bindings").toString(), ride.resolve("day.csv").toString()};
  }

  /** What a check says, without the names of the files. */
  private static String said(Path ride) {
    Run run = Run.of(check(ride));
    assertThat(run.status()).as(run.out() + run.err()).isEqualTo(ExitStatus.RULE_BROKEN);
    return run.out().replace(ride.toString(), "");
  }

  @Test
  void lineBreaksOfWindowsMeanWhatOthersMean() throws IOException {
    Path windows = write("crlf", crlf(RULES), crlf(STOP), crlf(TRACE), crlf(BINDINGS));
    assertThat(said(windows)).isEqualTo(said(folder.resolve("lf")));
  }

  private static String crlf(String text) {
    return text.replace("\n", "\r\n");
  }

  @Test
  void aByteOrderMarkBeforeAFileMeansNothing() throws IOException {
    Path marked = write("marked", "\uFEFF" + RULES, "\uFEFF" + STOP, "\uFEFF" + TRACE, "\uFEFF" + BINDINGS);
    assertThat(said(marked)).isEqualTo(said(folder.resolve("lf")));
  }

  @Test
  void aFileIsUsedByAPathWithBackslashes() throws IOException {
    Path backslashes = write("backslashes", RULES.replace("parts/", "parts\\"), STOP, TRACE, BINDINGS);
    assertThat(said(backslashes)).isEqualTo(said(folder.resolve("lf")));
  }

  @Test
  void namesMayHaveBlanks() throws IOException {
    Path blanks = write("my ride of Monday", RULES, STOP, TRACE, BINDINGS);
    assertThat(said(blanks)).isEqualTo(said(folder.resolve("lf")));
  }

  @ParameterizedTest
  @ValueSource(strings = {"US-ASCII", "ISO-8859-1", "IBM437", "UTF-16"})
  void whatIsReadAndWrittenIsUtf8WhateverTheSystemWrites(String charset) throws Exception {
    Path report = folder.resolve("report");
    List<String> words = new ArrayList<>(List.of(check(folder.resolve("lf"))));
    words.addAll(1, List.of("--out", report.toString()));
    List<String> command = PawlProcess.command(words.toArray(String[]::new));
    command.addAll(command.indexOf("-cp"), List.of("-Dfile.encoding=" + charset, "-Dsun.stdout.encoding=" + charset,
        "-Dstdout.encoding=" + charset));
    ProcessBuilder process = new ProcessBuilder(command).redirectErrorStream(true);
    process.environment().putAll(Map.of("LC_ALL", "C", "LANG", "C"));
    Process started = process.start();
    String said = new String(started.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(started.waitFor()).as(said).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(said).contains("Not-Halt h\u00e4lt den Lift");
    assertThat(Files.readString(report.resolve("report.json"))).contains("Pr\u00fcfstand \u201eNord\u201c");
    assertThat(Files.readString(report.resolve("report.html"))).contains("Pr\u00fcfstand \u201eNord\u201c");
  }
}
