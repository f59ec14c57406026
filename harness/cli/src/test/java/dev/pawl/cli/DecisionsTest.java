package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Findings that persons accept, and reviews: what is said of them, and with which status a check ends. */
class DecisionsTest {

  private static final String BY = "\n  because \"known; order 118\"\n  by \"J. Smith\"\n  until 2026-12-31\n";
  private static final String HELD = "time_ms,signal,value\n0,counter,1\n0,estop_chain,1\n0,lift_run,1\n"
      + "9,estop_chain,0\n50,lift_run,0\n99,counter,2\n";

  @TempDir
  private Path folder;

  @BeforeEach
  void write() throws IOException {
    Stand.write(folder);
    Files.writeString(folder.resolve("held.csv"), HELD);
    Files.writeString(folder.resolve("broken.csv"), HELD.replace("50,lift", "500,lift").replace("99,c", "501,c"));
    Files.writeString(folder.resolve("twice.csv"), HELD.replace("50,lift", "500,lift").replace("99,c", "501,c")
        + "1000,estop_chain,1\n1000,lift_run,1\n2000,estop_chain,0\n2500,lift_run,0\n");
  }

  private Run check(String decisions, String trace, String... more) throws IOException {
    Files.writeString(folder.resolve("site.decisions"), decisions);
    List<String> words = new ArrayList<>(List.of("check", "--quiet", "--rules", path("stand.rules"), "--decisions",
        path("site.decisions"), path(trace)));
    words.addAll(List.of(more));
    // 2026-09-21
    return Run.at(Path.of("../.."), Map.of("SOURCE_DATE_EPOCH", "1790000000"), new Interruption(),
        words.toArray(String[]::new));
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  @Test
  void whatIsBrokenStaysBrokenAndIsSaidToBeAccepted() throws IOException {
    Run run = check("accept STOP-01 in \"broken.csv\"" + BY, "broken.csv");
    assertThat(run.status()).isEqualTo(ExitStatus.ACCEPTED);
    assertThat(run.out()).contains("1 broken", "BROKEN", "accepted  STOP-01 in broken.csv  " + path("site.decisions")
        + ":1\n", "accepted until 2026-12-31 by J. Smith\n", "known; order 118\n");
    assertThat(check("accept STOP-01 in \"broken.csv\"" + BY, "broken.csv", "--accepted-pass").status()).isZero();
  }

  /** The trace, what is accepted in it, and how the check ends. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "broken.csv | accept STOP-01 in every trace                    | 4",
      "broken.csv | accept STOP-01 in broken.csv from 9 ms to 200 ms | 4",
      "broken.csv | accept STOP-01 in broken.csv from 10 ms to 1 s   | 1",
      "broken.csv | accept STOP-01 in broken.csv from 0 ms to 100 ms | 1",
      "broken.csv | accept STOP-01 in broken.csv from 1 s to 2 s     | 1",
      "broken.csv | accept STOP-01 in broken.csv from 2026-05-01T00:00:00Z to 2026-05-02T00:00:00Z | 1",
      "broken.csv | accept STOP-01 in held.csv                       | 1",
      "broken.csv | accept COUNT-01 in broken.csv                    | 1",
      "twice.csv  | accept STOP-01 in twice.csv from 0 s to 1 s      | 1",
      "twice.csv  | accept STOP-01 in twice.csv from 0 s to 3 s      | 4",
      "held.csv   | accept STOP-01 in held.csv                       | 4"})
  void onlyWhatIsCoveredAsAWholeIsAccepted(String trace, String accept, int status) throws IOException {
    assertThat(check(accept + BY, trace).status()).isEqualTo(status);
  }

  @Test
  void whatIsCoveredInPartIsSaid() throws IOException {
    Run run = check("accept STOP-01 in twice.csv from 0 s to 1 s" + BY, "twice.csv", "--out", path("out"));
    assertThat(run.status()).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(run.out().replaceAll("\\s+", " ")).contains(
        "accepted until 2026-12-31 by J. Smith, but it does not cover all that the rule has its verdict for");
    assertThat(Files.readString(folder.resolve("out/report.html")))
        .contains("<strong>accepted</strong>: it does not cover all that the rule has its verdict for");
  }

  /** It lasts from its trigger at 9 ms to its deadline at 209 ms. */
  @Test
  void whereTheTimesLeaveAFindingOutItSaysWhenThatWas() throws IOException {
    assertThat(check("accept STOP-01 in broken.csv from 10 ms to 1 s" + BY, "broken.csv").out()
        .replaceAll("\\s+", " ")).contains("no finding of that rule lies wholly in these times; the first there is from"
            + " 0.009 s to");
  }

  @Test
  void whatIsNotKeptIsNotAcceptedByItsTime() throws IOException {
    String accept = "accept STOP-01 in twice.csv from 0 s to 3 s" + BY;
    assertThat(check(accept, "twice.csv", "--findings", "1").status()).isEqualTo(ExitStatus.RULE_BROKEN);
  }

  @Test
  void anExpiredOneAcceptsNothingAndIsAFinding() throws IOException {
    String expired = "accept STOP-01 in \"broken.csv\"" + BY.replace("2026-12-31", "2026-09-20");
    Run run = check(expired, "broken.csv");
    assertThat(run.status()).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(run.out()).contains("EXPIRED  STOP-01 in broken.csv",
        "its last day was 2026-09-20; what it accepted counts again");
    assertThat(check(expired.replace("09-20", "09-21"), "broken.csv").status()).as("the last day counts")
        .isEqualTo(ExitStatus.ACCEPTED);
    assertThat(check(expired, "held.csv").status()).isEqualTo(ExitStatus.ACCEPTED);
  }

  @Test
  void oneThatIsAboutNothingIsAFindingThatNoOptionSilences() throws IOException {
    Run run = check("accept STOP-01 in \"held.csv\"" + BY, "held.csv", "--accepted-pass");
    assertThat(run.status()).isEqualTo(ExitStatus.ACCEPTED);
    assertThat(run.out()).contains("ABOUT NOTHING  STOP-01 in held.csv",
        "nothing of that rule is broken or undecided there; take the entry away");
    assertThat(check("accept STOP-02 in \"held.csv\"" + BY, "held.csv").out())
        .contains("no rule of that name was judged");
    assertThat(check("accept STOP-01 in \"may.csv\"" + BY, "held.csv").out())
        .contains("no trace of that name was judged");
  }

  @Test
  void acceptedIsAsGoodAsProvenButNothingElseIs() throws IOException {
    String accept = "accept STOP-01 in \"broken.csv\"" + BY;
    assertThat(check(accept, "broken.csv", "--require-proof").status()).isEqualTo(ExitStatus.ACCEPTED);
    Files.writeString(folder.resolve("broken.csv"), HELD.replace("50,lift", "500,lift").replaceAll("\\d+,counter,.\n",
        ""));
    assertThat(check(accept, "broken.csv", "--require-proof").status()).isEqualTo(ExitStatus.NOT_PROVEN);
  }

  @Test
  void everyFormOfTheReportShowsThem() throws IOException {
    String decisions = "accept STOP-01 in \"broken.csv\"" + BY + "accept COUNT-01 in \"<b>.csv\"" + BY + """
        review
          by        "A. Reviewer"
          on        2026-09-20
          run       "RUN"
          looked at "every finding"
          looked at "the text of all rules"
          note      "agreed"
        """;
    decisions = decisions.replace("RUN", looked("broken.csv"));
    Run run = check(decisions, "broken.csv", "--out", path("out"));
    assertThat(run.out()).contains("reviewed  on 2026-09-20 by A. Reviewer",
        "every finding; the text of all rules. agreed");
    String html = Files.readString(folder.resolve("out/report.html"));
    assertThat(html).contains("; accepted until 2026-12-31 by J. Smith", "What persons decided",
        "and is expired, about nothing or of another report: 1 decision.", "STOP-01 in broken.csv", "known; order 118", "2026-12-31",
        "COUNT-01 in &lt;b&gt;.csv", "A. Reviewer");
    assertThat(Files.readString(folder.resolve("out/report.json"))).contains("\"state\" : \"in-force\"",
        "\"state\" : \"unmatched\"", "\"looked\" : [", "\"verdict\" : \"broken\"");
    assertThat(Files.readString(folder.resolve("out/junit.xml"))).contains(
        "<testsuites name=\"pawl\" tests=\"5\" failures=\"2\" errors=\"0\">",
        "message=\"accepted until 2026-12-31 by J. Smith: no response", "type=\"about nothing\"",
        "reviewed on 2026-09-20 by A. Reviewer: every finding; the text of all rules. agreed");
    assertThat(Files.readString(folder.resolve("out/inputs.sha256"))).contains("# decisions\n", "site.decisions\n");
  }

  /** The run that a check of a trace shows at the head of its sheets. */
  private String looked(String trace) throws IOException {
    check("", trace, "--out", path("before"));
    return Files.readString(folder.resolve("before/report.html")).replaceAll("(?s).*?run ([0-9a-f]{12}).*", "$1");
  }

  @Test
  void aReviewHoldsForWhatItLookedAtAndIsAFindingElsewhere() throws IOException {
    String review = "review by \"A\" on 2026-09-20 looked at \"every finding\" run \"" + looked("held.csv") + "\"\n";
    assertThat(check(review, "held.csv").status()).as("with it among the inputs").isZero();
    assertThat(check(review + "accept STOP-01 in \"held.csv\"" + BY, "held.csv").out())
        .as("whatever else is decided").contains("  reviewed  on 2026-09-20 by A");
    assertThat(check(review, "held.csv", "--out", path("out")).status()).isZero();
    assertThat(Files.readString(folder.resolve("out/report.html"))).contains("<strong>of this report</strong>");
    Files.writeString(folder.resolve("held.csv"), HELD.replace("50,lift", "51,lift"));
    Run run = check(review, "held.csv", "--out", path("out"));
    assertThat(run.status()).isEqualTo(ExitStatus.ACCEPTED);
    assertThat(run.out()).contains("REVIEW OF ANOTHER REPORT  on 2026-09-20 by A");
    assertThat(Files.readString(folder.resolve("out/report.html"))).contains("<strong>of another report</strong>",
        "look again, and write a review of this one");
    assertThat(Files.readString(folder.resolve("out/junit.xml"))).contains("type=\"of another report\"");
    assertThat(Files.readString(folder.resolve("out/report.sarif"))).contains("review by A: it looked at run");
    assertThat(Files.readString(folder.resolve("out/report.json"))).contains("\"ofThis\" : false");
  }

  @Test
  void theGuidesDecisionsCanBeRead() throws IOException {
    String guide = Files.readString(Path.of("../report/DOSSIER.md"));
    int begin = guide.indexOf("-- decisions of the site");
    Run run = check(guide.substring(begin, guide.indexOf("```", begin)), "held.csv");
    assertThat(run.status()).as(run.err()).isEqualTo(ExitStatus.ACCEPTED);
    assertThat(run.out()).contains("FL-07 in monday.csv from 61 s to 75 s",
        "REVIEW OF ANOTHER REPORT  on 2026-11-30 by A. Reviewer");
  }

  @Test
  void whatIsWrongIsToldWhereItStands() throws IOException {
    Run run = check("""
        accept STOP-01 in "a.csv"
          because known
          by "J. Smith"
          until tomorrow
        accept STOP-01
        accept STOP-01 in "a.csv" from 9 s to 2 s by "y" until 2027-01-01 because "x"
        accept STOP-01 in "a.csv" from 9 s to 20 s becuse "x"
          by "y"
        accept STOP-01 in "a.csv" from 9 s to 2026-05-01T00:00:00Z by "y" by "z" because "x" until 2027-01-01
        forgive STOP-01
        review
          by "A"
          on 2026-09-20
          looked at
        review by "B" on 2026-09-20 looked at "x" run "12ab"
        accept STOP-01 in "" because "" by "y" until 2027-01-01
        """, "held.csv");
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err().replace(path("site.decisions"), "F").lines().filter(line -> line.contains("error")
        || line.startsWith("pawl"))).containsExactly(
            "F:2:11: error: 'known' is not what 'because' needs",
            "F:4:9: error: 'tomorrow' is not what 'until' needs",
            "F:5:1: error: 'accept' lacks its rule or its trace",
            "F:6:39: error: the span ends before it begins",
            "F:7:1: error: 'accept' lacks its 'because'",
            "F:7:1: error: 'accept' lacks its 'until'",
            "F:7:44: error: 'becuse' says nothing about 'accept'",
            "F:9:39: error: one time is counted from the start and the other is a date",
            "F:9:67: error: 'by' is said twice of 'accept'",
            "F:10:1: error: 'forgive' begins no decision",
            "F:11:1: error: 'review' lacks its 'run'",
            "F:14:3: error: something is missing behind 'looked at'",
            "F:15:47: error: \"12ab\" is not what 'run' needs",
            "F:16:19: error: \"\" names no trace", "F:16:30: error: \"\" is not what 'because' needs",
            "pawl: the decisions have errors, nothing was judged");
  }
}
