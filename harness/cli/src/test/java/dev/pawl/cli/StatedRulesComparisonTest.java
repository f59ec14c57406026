package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What {@code compare} says of rules that ask for something else than before, with the same verdicts. */
class StatedRulesComparisonTest {

  private static final String RULES = """
      ride "Test stand"
      resolution 1 ms
      input  estop_chain : bool
      input  base_flag   : bool
      input  crest_flag  : bool
      output lift_run    : bool
      output lift_speed  : m/s
      constant STOP_TIME = 500 ms
      zone lift enter rises(base_flag) leave falls(crest_flag) starts with 0
      rule STOP-01 "E-stop stops the lift"
        severity critical
        basis "risk assessment, item 12"
        when falls(estop_chain)
        must not lift_run within STOP_TIME, and stay so for 2 s
        tried by trigger
      rule SPEED-01 "The lift is not too fast"
        severity major
        basis practice
        always lift_speed <= 3 m/s
        while estop_chain
      rule ZONE-01 "No second train on the lift"
        severity major
        basis practice
        when rises(base_flag)
        must trains(lift) < 2
      """;

  @TempDir
  private Path folder;

  private Run judge(String out, String rules, String... more) throws IOException {
    Path file = Files.writeString(folder.resolve("stand.rules"), rules);
    Path trace = Files.writeString(folder.resolve("day.csv"), """
        time_ms,signal,value
        0,estop_chain,1
        0,base_flag,0
        0,crest_flag,0
        0,lift_run,1
        0,lift_speed,2
        100,base_flag,1
        200,base_flag,0
        300,crest_flag,1
        400,crest_flag,0
        1000,estop_chain,0
        1100,lift_run,0
        9000,lift_speed,1
        """);
    List<String> words = new ArrayList<>(List.of("check", "--quiet", "--rules", file.toString(), "--out", folder
        .resolve(out).toString(), trace.toString()));
    words.addAll(List.of(more));
    Run run = Run.of(words.toArray(String[]::new));
    assertThat(run.status()).as(run.out() + run.err()).isEqualTo(run.err().isEmpty() ? 0 : ExitStatus.WRONG_INPUT);
    return run;
  }

  private Run compare(String before, String after) throws IOException {
    judge("before", before);
    judge("after", after);
    return Run.of("compare", folder.resolve("before").toString(), folder.resolve("after").toString());
  }

  /** What is changed in the rules, the line that says so, and whether that is worse. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "STOP_TIME = 500 ms  | STOP_TIME = 5 s     | limit       loosened from 500 ms to 5 s   | 1",
      "STOP_TIME = 500 ms  | STOP_TIME = 400 ms  | limit       tightened from 500 ms to 400 ms | 0",
      "within STOP_TIME    | within 500 ms       | text        when falls(estop_chain) must not lift_run within STOP_TIME, and stay so | 0",
      "for 2 s             | for 1 s             | limit       loosened from 2 s to 1 s       | 1",
      "<= 3 m/s            | <= 4 m/s            | limit       loosened from 3 m/s to 4 m/s   | 1",
      "<= 3 m/s            | <= 2.5 m/s          | limit       tightened from 3 m/s to 2.5 m/s | 0",
      "<= 3 m/s            | < 3 m/s             | ASKS FOR LESS?  SPEED-01                   | 1",
      "while estop_chain   | while lift_run      | ASKS FOR LESS?  SPEED-01                   | 1",
      "severity critical   | severity minor      | severity    loosened from critical to minor | 1",
      "severity major      | severity critical   | severity    tightened from major to critical | 0",
      "resolution 1 ms     | resolution 20 ms    | resolution  loosened from 1 ms to 20 ms    | 1",
      "item 12             | item 13             | basis       risk assessment, item 12 -> risk assessment, item 13 | 0",
      "tried by trigger    | -- nothing tries it | trial       loosened from tried by trigger to none | 1",
      "rises(base_flag) leave | falls(base_flag) leave | ASKS FOR LESS?  ZONE-01             | 1",
      "E-stop stops        | Emergency stop stops | title      E-stop stops the lift -> Emergency stop stops the lift | 0"})
  void whatRulesSayOtherwiseIsSaidAndWhichWay(String before, String after, String line, int status)
      throws IOException {
    assertThat(RULES).contains(before);
    Run run = compare(RULES, RULES.replace(before, after));
    assertThat(run.out().replaceAll(" +", " ")).contains(line.replaceAll(" +", " "));
    assertThat(run.status()).as(run.out()).isEqualTo(status);
  }

  @Test
  void whatRulesAskComesBeforeTheMarginsThatGrewByIt() throws IOException {
    Run run = compare(RULES, RULES.replace("STOP_TIME = 500 ms", "STOP_TIME = 5 s"));
    assertThat(run.out()).startsWith("  careful     the two reports were judged by different rule files;")
        .containsSubsequence("LOOSENED  STOP-01", "loosened from 500 ms to 5 s", "margin      400 ms -> 4.9 s",
            "1 rule changed, 0 newly broken, 2 unchanged, 1 loosened\n");
  }

  @Test
  void thePageHasMarginsBeforeAndAfterOnOneAxis() throws IOException {
    compare(RULES, RULES.replace("STOP_TIME = 500 ms", "STOP_TIME = 5 s"));
    String[] words = {"compare", folder.resolve("before").toString(), folder.resolve("after").toString(), "--out",
        folder.resolve("compared").toString()};
    assertThat(Run.of(words).status()).isEqualTo(ExitStatus.RULE_BROKEN);
    Path page = folder.resolve("compared/comparison.html");
    assertThat(page).content().contains("STOP-01", "before the nearest of 1 trace 400 ms; after the nearest of 1 trace"
        + " 4.9 s", "loosened from 500 ms to 5 s");
    assertThat(Run.of(words).status()).as("it is replaced").isEqualTo(ExitStatus.RULE_BROKEN);
    Files.writeString(page, "somebody's own\n");
    assertThat(Run.of(words).err()).isEqualTo("pawl: --out: " + page
        + ": is no comparison that pawl wrote, and stays; name another folder\n");
    assertThat(page).hasContent("somebody's own\n");
  }

  @Test
  void theFirstPagesSayWhatChangedSinceAnEarlierReport() throws IOException {
    judge("before", RULES);
    String before = folder.resolve("before").toString();
    String slow = RULES.replace("STOP_TIME = 500 ms", "STOP_TIME = 5 s").replace("rule ZONE-01", "rule ZONE-02");
    Run run = judge("after", slow, "--earlier", before);
    assertThat(run.out()).contains("Since " + before + ": 3 rules changed in verdict, obligations or margin, 1 did not."
        + " Less is shown than then, or less asked for:\n", "  Otherwise worse: ZONE-01.\n",
        "  Loosened: STOP-01, limit from 500 ms to 5 s.\n", "  Dropped: rule ZONE-01.\n");
    assertThat(folder.resolve("after/report.html")).content().contains("<dt>Changed since</dt>", "<dd>Since " + before,
        "<dd>Loosened: STOP-01, limit from 500 ms to 5 s.</dd>");
    assertThat(folder.resolve("after/report.json")).content().contains("\"worse\" : true");
    assertThat(folder.resolve("after/inputs.sha256")).content().contains("# earlier report\n").contains(before
        + "/report.json\n");
    assertThat(Run.of("verify", folder.resolve("after").toString()).status()).isZero();
    Path earlier = Path.of(before, "report.json");
    byte[] kept = Files.readAllBytes(earlier);
    byte[] other = kept.clone();
    other[kept.length / 2] ^= 1;
    Files.write(earlier, other);
    assertThat(Run.of("verify", folder.resolve("after").toString()).status()).as("a bit of it").isNotZero();
    Files.write(earlier, kept);
    assertThat(judge("same", RULES, "--earlier", before + "/report.json").out()).contains("/report.json: 0 rules"
        + " changed in verdict, obligations or margin, 3 did not. No verdict is worse, and nothing is gone or loosened.\n");
  }

  @Test
  void theEarlierReportIsNotTheOneThatIsReplaced() throws IOException {
    judge("before", RULES);
    String before = folder.resolve("before").toString();
    assertThat(judge("before", RULES, "--earlier", before).err()).isEqualTo("pawl: --earlier: " + before + " lies in"
        + " the folder of --out, where this report would take its place; name another folder for this one\n");
    assertThat(judge("after", RULES, "--earlier", folder.resolve("none").toString()).err()).contains("none");
  }

  @Test
  void theSameRulesSayNothing() throws IOException {
    Run run = compare(RULES, RULES.replace("ride", "-- a remark\nride"));
    assertThat(run.out()).contains("0 rules changed, 0 newly broken, 3 unchanged\n").doesNotContain("loosened");
    assertThat(run.status()).isZero();
  }

  @Test
  void aRuleThatWasDroppedIsListed() throws IOException {
    Run run = compare(RULES, RULES.substring(0, RULES.indexOf("rule ZONE-01")));
    assertThat(run.status()).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(run.out()).contains("dropped     rule ZONE-01\n");
  }

  @Test
  void aRequirementThatWasDroppedIsListed() throws IOException {
    String served = RULES.replace("rule STOP-01", "requirement R-1 \"The lift stops\"\nrule STOP-01");
    Run run = compare(served, RULES);
    assertThat(run.status()).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(run.out()).contains("dropped     requirement R-1\n");
  }

  @Test
  void whatWasSaidOfARequirementAndIsNotSaidNowIsListed() throws IOException {
    String stated = "requirement R-1 \"The lift stops\" level \"PL d\" satisfied by STOP-01, ZONE-01\nrule STOP-01";
    Run run = compare(RULES.replace("rule STOP-01", stated), RULES.replace("rule STOP-01",
        stated.replace("PL d", "PL a").replace(", ZONE-01", "")));
    assertThat(run.status()).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(run.out()).contains("dropped     level \"PL d\" of requirement R-1\n",
        "dropped     rule ZONE-01 of requirement R-1\n").doesNotContain("text \"");
  }
}
