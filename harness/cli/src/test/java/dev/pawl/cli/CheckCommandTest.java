package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.report.json.JsonReportReader;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.EventSource;
import dev.pawl.run.SourceJudge;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.source.RecordedSource;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code pawl check} from the command line to the files it leaves. */
class CheckCommandTest {

  private static final String RULES = """
      ride "Test stand"
      resolution 10 ms
      input  estop_chain : bool
      input  mode        : one of (off, automatic)
      output lift_run    : bool
      rule STOP-01 "E-stop stops the lift"
        severity critical
        basis practice
        when falls(estop_chain)
        must not lift_run within 500 ms
      """;

  @TempDir
  Path folder;

  @BeforeEach
  void writeFiles() throws IOException {
    write("stop.rules", RULES);
    write("held.csv",
        "time_s,signal,value\n0,estop_chain,1\n0,lift_run,1\n5,estop_chain,0\n5.2,lift_run,0\n9,mode,off\n");
    write("broken.csv",
        "time_s,signal,value\n0,estop_chain,1\n0,lift_run,1\n5,estop_chain,0\n5.75,lift_run,0\n9,mode,off\n");
    write("idle.csv", "time_s,signal,value\n0,estop_chain,1\n0,lift_run,1\n9,mode,off\n");
    write("open.csv", "time_s,signal,value\n0,estop_chain,1\n0,lift_run,1\n5,estop_chain,0\n5.2,mode,off\n");
    write("wrong.csv", "time_s,signal,value\n0,estop_chain,1\n1,lift_run,maybe\n2,lift_run,1\n");
  }

  private void write(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private Run check(String... words) {
    String[] all = new String[words.length + 4];
    all[0] = "check";
    all[1] = "--quiet";
    all[2] = "--rules";
    all[3] = path("stop.rules");
    System.arraycopy(words, 0, all, 4, words.length);
    return Run.of(all);
  }

  @ParameterizedTest
  @CsvSource({"held.csv, 0", "broken.csv, 1", "idle.csv, 0", "open.csv, 0", "wrong.csv, 2"})
  void theExitStatusIsTheContract(String trace, int status) {
    assertThat(check(path(trace)).status()).isEqualTo(status);
  }

  @ParameterizedTest
  @CsvSource({"held.csv, 0", "broken.csv, 1", "idle.csv, 3", "open.csv, 3", "wrong.csv, 2"})
  void withRequireProofWhatIsUnprovenFails(String trace, int status) {
    assertThat(check("--require-proof", path(trace)).status()).isEqualTo(status);
  }

  @Test
  void aBrokenRuleNamesTriggerBreakLatenessValuesAndPlace() {
    Run run = check(path("broken.csv"));
    assertThat(run.err()).isEmpty();
    assertThat(run.out().replace(folder.toString(), "DIR").replaceAll("\\s+", " "))
        .contains("BROKEN STOP-01 E-stop stops the lift critical",
        "trigger 5.000 s break no response by the deadline, 5.500 s (500 ms after the trigger); it came at 5.750 s, "
            + "250 ms late",
        "estop_chain became false at 5.000 s broken.csv:4", "lift_run was true at 0.000 s broken.csv:3",
            "STOP-01 -250 ms");
  }

  @Test
  void aRuleThatNeverTriggeredIsNoPass() {
    assertThat(check(path("idle.csv")).out()).contains("0 broken, 0 undecided, 1 not exercised, 0 held");
  }

  @Test
  void aBadRowMakesTheTraceUnusableUnlessLenient() {
    Run strict = check(path("wrong.csv"));
    assertThat(strict.err()).isEqualTo("pawl: " + path("wrong.csv")
        + ": 1 problem: 1 x wrong value (first in line 3); nothing of it was judged (--lenient leaves such rows "
        + "out)\n");
    assertThat(strict.out()).contains("line 3").contains("maybe").doesNotContain("not exercised");
    Run lenient = check("--lenient", path("wrong.csv"));
    assertThat(lenient.status()).isZero();
    assertThat(lenient.out()).contains("1 wrong value (first in line 3)", "1 not exercised");
  }

  @Test
  void oneBadTraceDoesNotHideTheOthers() {
    Run run = check(path("wrong.csv"), path("broken.csv"), path("held.csv"));
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.out()).contains("BROKEN  STOP-01")
        .contains("All 3 traces: 1 broken, 0 undecided, 0 not exercised, 1 held");
  }

  @Test
  void aFolderStandsForItsTracesWhateverTheNumberOfJobs() throws IOException {
    Files.delete(folder.resolve("wrong.csv"));
    String one = Run.of("check", "--rules", folder.toString(), "--jobs", "1", folder.toString()).out();
    String four = Run.of("check", "--rules", folder.toString(), "--jobs", "4", folder.toString()).out();
    assertThat(one).contains("All 4 traces: 1 broken, 1 undecided, 1 not exercised, 1 held").isEqualTo(four);
  }

  @Test
  void theRulesOfOneLargeTraceAreDividedAmongThreadsWithTheSameResult() throws IOException {
    StringBuilder rules = new StringBuilder("input near_flag : bool\noutput lift_run : bool\nzone z enter "
        + "rises(near_flag) leave rises(lift_run)\n");
    for (int rule = 1; rule <= 40; rule++) {
      rules.append("rule R-").append(rule).append(" \"rule\"\n  basis practice\n  severity minor\n  when ")
          .append(rule % 2 == 0 ? "rises(near_flag)" : "enters(z)").append("\n  must lift_run within ").append(rule)
              .append(" ms\n");
    }
    Path file = Files.writeString(folder.resolve("forty.rules"), rules);
    StringBuilder rows = new StringBuilder("time_ms,signal,value\n");
    SplittableRandom random = new SplittableRandom(4);
    for (int time = 0; rows.length() < 9_000_000; time += random.nextInt(20)) {
      rows.append(time).append(random.nextBoolean() ? ",near_flag," : ",lift_run,").append(random.nextInt(2))
          .append('\n');
    }
    String trace = Files.writeString(folder.resolve("large.csv"), rows).toString();
    String one = Run.of("check", "--lenient", "--rules", file.toString(), "--jobs", "1", trace).out();
    String three = Run.of("check", "--lenient", "--rules", file.toString(), "--jobs", "3", trace).out();
    assertThat(one).contains("BROKEN  R-1 ", "BROKEN  R-40 ").isEqualTo(three);
  }

  @Test
  void aLinkedFolderIsAFolderAndALinkThatLeadsNowhereIsSaid() throws IOException {
    Path inside = Files.createDirectories(folder.resolve("season/may"));
    Files.copy(folder.resolve("held.csv"), inside.resolve("held.csv"));
    Path link = Files.createSymbolicLink(folder.resolve("linked"), folder.resolve("season"));
    assertThat(check(link.toString()).out()).contains("1 held");
    Files.createSymbolicLink(inside.resolve("gone.csv"), folder.resolve("nowhere.csv"));
    Run run = check(link.toString());
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).contains("gone.csv: no such file or folder");
    assertThat(run.out()).contains("1 held, 1 trace not read");
  }

  @Test
  void filesOfAFolderThatAreNoTracesByTheirNamesAreNamed() throws IOException {
    Path season = Files.createDirectory(folder.resolve("season"));
    Files.copy(folder.resolve("held.csv"), season.resolve("held.csv"));
    Files.writeString(season.resolve("export.txt"), "time_ms,signal,value\n");
    assertThat(Run.of("check", path("stop.rules"), season.toString()).err())
        .contains("pawl: 1 file is no trace by its name and is left" + " out: " + season.resolve("export.txt")
        + " (name one itself to have it read)\n");
  }

  @Test
  void leniencyIsOfferedOnlyWhereItHelps() throws IOException {
    Path trace = Files.writeString(folder.resolve("season.csv"), "0,estop_chain,1\n");
    assertThat(check(trace.toString()).err())
        .endsWith("1 problem: 1 x unreadable trace (first in line 1); nothing of it was judged\n");
  }

  @Test
  void rulesMayStandAmongTheTraces() {
    assertThat(Run.of("check", path("stop.rules"), path("held.csv")).status()).isZero();
  }

  @Test
  void theReportFilesAreWrittenAndReadable() throws Exception {
    Path out = folder.resolve("a/b");
    Run run = check("--out", out.toString(), path("broken.csv"));
    assertThat(run.out()).contains("Report: " + out.resolve("report.html"));
    assertThat(JsonReportReader.read("r", Files.newInputStream(out.resolve("report.json"))).traces()).hasSize(1);
    assertThat(DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(out.resolve("junit.xml").toFile())
        .getElementsByTagName("failure").getLength()).isEqualTo(1);
    assertThat(Files.readString(out.resolve("rules.html"))).contains("<svg class=\"timing\"").contains("came late");
    assertThat(Files.list(out)).hasSize(8);
    Run same = Run.of("compare", out.resolve("report.json").toString(), out.resolve("report.json").toString());
    assertThat(same.out()).startsWith("0 rules changed, 0 newly broken, 1 unchanged\nPawl supports the judgement");
  }

  @Test
  void theInputsAreNamedWithTheirHashes() throws IOException {
    String json = check("--format", "json", path("held.csv")).out();
    // SHA-256 (FIPS 180-4) of the empty text, from memory.
    write("empty.csv", "");
    String empty = check("--format", "json", path("empty.csv")).out();
    assertThat(json).startsWith("{\n  \"format\" : \"pawl-report\"").contains("\"role\" : \"rules\"")
        .contains("\"role\" : \"trace\"");
    assertThat(empty).contains("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  }

  @Test
  void anInterruptedRunLeavesAReportThatSaysSo() throws Exception {
    Interruption interruption = new Interruption();
    interruption.request();
    Path out = folder.resolve("out");
    Run run = Run.with(Map.of(), interruption, "check", "--rules", path("stop.rules"), "--out", out.toString(),
        path("broken.csv"));
    assertThat(run.out()).contains("Partial: the run was interrupted").doesNotContain("broken.csv");
    assertThat(run.err().lines()).contains("pawl: interrupted; 1 trace was not read")
        .noneMatch(line -> line.contains("broken.csv"));
    assertThat(JsonReportReader.read("r", Files.newInputStream(out.resolve("report.json"))).partial()).isTrue();
  }

  @Test
  void aTraceThatIsNotReadToItsEndIsJudgedAsFarAsItWasRead() throws IOException {
    StringBuilder rows = new StringBuilder("time_s,signal,value\n0,estop_chain,1\n0,lift_run,1\n");
    for (int i = 1; i <= 300_000; i++) {
      rows.append(i).append(",lift_run,").append(i % 2).append('\n');
    }
    write("long.csv", rows.toString());
    RuleFiles rules = RuleFiles.load(List.of(path("stop.rules")));
    SourceJudge judge = new SourceJudge(rules.book(), 5, true, 1);
    EventSource source = new RecordedSource(folder.resolve("long.csv"), TraceOptions.of(rules.book()));
    TraceResult part = judge.judge(source, (bytes, lines) -> false);
    assertThat(part.partial()).isTrue();
    assertThat(part.lines()).isPositive().isLessThan(300_003);
    assertThat(part.rules()).hasSize(1);
    TraceResult whole = judge.judge(source, Progress.NONE);
    assertThat(whole.partial()).isFalse();
    assertThat(whole.end()).isEqualTo(300_000_000_000_000L);
  }

  @Test
  void colourIsForTerminalsThatWantIt() {
    String[] words = {"check", path("stop.rules"), path("broken.csv")};
    assertThat(Run.of(words).out()).doesNotContain("\u001b");
    assertThat(Run.with(Map.of("PAWL_TERMINAL", "out"), new Interruption(), words).out()).contains("\u001b[");
    assertThat(Run.with(Map.of("PAWL_TERMINAL", "out", "NO_COLOR", "1"), new Interruption(), words).out())
        .doesNotContain("\u001b");
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
      check | no rules: give a rule file or folder with --rules ('pawl check --help' shows how)
      check DIR/held.csv | no rules: give a rule file or folder with --rules ('pawl check --help' shows how)
      check DIR/stop.rules | no trace: name at least one after the options ('pawl check --help' shows how)
      check --rules | expected parameter for option '--rules' but found '--quiet' ('pawl check --help' shows how)
      check --rules DIR/gone.rules DIR/held.csv | DIR/gone.rules: no such file or folder
      check --rules DIR/stop.rules DIR/gone.csv | DIR/gone.csv: no such file or folder
      check --rules DIR/empty DIR/held.csv | DIR/empty: this folder holds no rule files (*.rules)
      check --rules DIR/stop.rules DIR/empty | DIR/empty: this folder holds no traces (*.csv, *.jsonl, *.ndjson or *.vcd, also with .gz, .zst, .xz or .zip)
      check --rules DIR/stop.rules EMPTY | an empty argument names nothing; leave it out, or write . for the current folder
      check --rules EMPTY DIR/held.csv | an empty argument names nothing; leave it out, or write . for the current folder
      check --rules= DIR/held.csv | --rules=: an empty argument names nothing; leave it out, or write . for the current folder
      format EMPTY | an empty argument names nothing; leave it out, or write . for the current folder
      check --rules DIR/stop.rules --format xml DIR/held.csv | --format: 'xml' is not known; write text or json
      check --rules DIR/stop.rules --time-unit day DIR/held.csv | --time-unit: 'day' is not known; write s, ms, us, ns or rfc3339
      check --rules DIR/stop.rules --jobs 0 DIR/held.csv | --jobs: '0' is not a whole number from 1 to 256
      check --rules DIR/stop.rules --jobs two DIR/held.csv | --jobs: 'two' is not a whole number from 1 to 256
      check --rules DIR/stop.rules --findings -1 DIR/held.csv | --findings: '-1' is not a whole number from 0 to 10000
      check --rules DIR/stop.rules --bindings DIR/gone DIR/held.csv | DIR/gone: no such file or folder
      check --rules DIR/binary.rules DIR/held.csv | DIR/binary.rules: not a text in UTF-8; save it with that encoding
      check --rules DIR/stop.rules --out DIR/held.csv DIR/held.csv | --out: DIR/held.csv: is not a folder
      check --rules DIR/stop.rules --out a --out b DIR/held.csv | option '--out' (DIR) should be specified only once ('pawl check --help' shows how)
      check --rules DIR/stop.rules --leniently DIR/held.csv | unknown option: '--leniently'; did you mean '--lenient'? ('pawl check --help' shows how)
      """)
  void aWrongCommandGetsItsExactMessage(String words, String message) throws IOException {
    Files.createDirectories(folder.resolve("empty"));
    Files.write(folder.resolve("binary.rules"), new byte[] {(byte) 0xC3, 0x28});
    String[] all = (words.startsWith("check") ? words + " --quiet" : words).replace("DIR", folder.toString())
        .split(" ");
    Arrays.setAll(all, i -> all[i].equals("EMPTY") ? "" : all[i]);
    Run run = Run.of(all);
    assertThat(run.err().replace(folder.toString(), "DIR")).isEqualTo("pawl: " + message + "\n");
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
  }

  @Test
  void warningsAreMentionedUnlessQuiet() {
    Run run = Run.of("check", path("stop.rules"), path("held.csv"));
    assertThat(run.err()).isEqualTo("pawl: the rules have 1 warning ('pawl explain' shows it)\n");
    assertThat(Run.of("explain", path("stop.rules")).err()).contains("warning: no rule and no zone looks at `mode`");
    assertThat(check(path("held.csv")).err()).isEmpty();
  }

  @Test
  void everyErrorOfARuleFileIsToldAndNothingIsJudged() throws IOException {
    write("bad.rules", RULES.replace("not lift_run", "not lift_rnu")
        .replace("falls(estop_chain)", "falls(estop_chian)"));
    Run run = Run.of("check", "--rules", path("bad.rules"), path("held.csv"));
    assertThat(run.err()).contains("bad.rules:9:", "bad.rules:10:", "lift_run", "estop_chain")
        .endsWith("pawl: the rules have 2 errors, nothing was judged\n");
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.out()).isEmpty();
  }

  @Test
  void aProblemOfOursIsOneLineWithoutAStackTrace() {
    Console broken = new Console(null, new java.io.PrintStream(new java.io.ByteArrayOutputStream()), Map.of(),
        Path.of(""), new Interruption());
    assertThat(new Main(broken).run("check", path("stop.rules"), path("held.csv"))).isEqualTo(ExitStatus.WRONG_INPUT);
  }
}
