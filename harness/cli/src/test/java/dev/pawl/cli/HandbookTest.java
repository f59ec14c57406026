package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code pawl explain --out}: a page for each rule, and one that leads to them. */
class HandbookTest {

  private static final String RULES = """
      ride "Two <rules>"
      input estop_chain, reset_button : bool
      output lift_run, tyres_run : bool
      for each signal drive in (lift_run, tyres_run)
      rule STOP-{drive} "The stop switches {drive} off"
        basis    "Code A, s. 3 (from memory): stops stop; Code B: resets reset"
        severity critical
        when     falls(estop_chain)
        must     not drive within 500 ms, and stay so until rises(reset_button)
        stay     tried by rises(estop_chain)
      rule MORE "Nothing else"
        basis    practice
        always   estop_chain or not lift_run
        untried  "nobody can ask"
      example "late" for STOP-lift_run gives broken
        at 0 s   estop_chain = true, lift_run = true, reset_button = false
        at 1 s   estop_chain = false
        at 1.7 s lift_run = false
        end at 3 s
      """;

  @TempDir
  private Path folder;

  private Path rules;
  private Path out;

  @BeforeEach
  void writeRules() throws IOException {
    rules = Files.writeString(folder.resolve("two.rules"), RULES);
    out = folder.resolve("handbook");
  }

  private Run explain(String... more) {
    return Run.of(Stream.concat(Stream.of("explain", "--rules", rules.toString()), Stream.of(more))
        .toArray(String[]::new));
  }

  private String page(String name) throws IOException {
    return Files.readString(out.resolve(name));
  }

  @Test
  void eachRuleHasAPageWithItsWordsItsBasisItsTrialsAndItsExamplesDrawn() throws IOException {
    Run run = explain("--out", out.toString());
    assertThat(run.status()).isZero();
    assertThat(run.out()).contains(out.resolve("index.html").toString());
    try (Stream<Path> files = Files.list(out)) {
      assertThat(files.map(file -> file.getFileName().toString())).containsExactlyInAnyOrder("001-STOP-lift_run.html",
          "002-STOP-tyres_run.html", "003-MORE.html", "checklist.html", "index.html");
    }
    assertThat(page("001-STOP-lift_run.html")).contains("The stop switches lift_run off", "Critical",
        "Code A, s. 3 (from memory)", "Each time that estop_chain becomes false", "stay tried by rises(estop_chain)",
        "broken", "late", "<svg class=\"timing\"", "deadline missed", "at 1.700 s  lift_run = false")
        .doesNotContain("<script");
    assertThat(page("002-STOP-tyres_run.html")).contains("href=\"001-STOP-lift_run.html\"");
    assertThat(page("003-MORE.html")).contains("common practice, no source", "nobody can ask",
        "hold no example for this rule");
  }

  @Test
  void theIndexShowsWhichRequirementsAreCoveredByWhichRules() throws IOException {
    explain("--out", out.toString());
    String index = page("index.html");
    assertThat(index).contains("Two &lt;rules&gt;", "3 rules", "1 rule rests on common practice alone");
    String covered = index.substring(index.indexOf("What they cover"));
    for (String source : List.of("Code A, s. 3 (from memory)</th>", "Code B</th>")) {
      String row = covered.substring(covered.indexOf(source), covered.indexOf("</tr>", covered.indexOf(source)));
      assertThat(row).contains("001-STOP-lift_run.html", "002-STOP-tyres_run.html").doesNotContain("MORE");
    }
  }

  @Test
  void theListOfWhatToTryHasEachRuleThatCanBeTried() throws IOException {
    explain("--out", out.toString());
    assertThat(page("checklist.html")).contains("001-STOP-lift_run.html", "002-STOP-tyres_run.html", "\u2610",
        "estop_chain becomes false").doesNotContain("MORE");
    assertThat(page("index.html")).contains("href=\"checklist.html\"");
  }

  @Test
  void onlyTheRulesAskedForGetAPage() throws IOException {
    assertThat(explain("--rule", "MORE", "--out", out.toString()).status()).isZero();
    assertThat(page("index.html")).contains("1 rule,").doesNotContain("STOP-lift_run");
  }

  @Test
  void nothingIsWrittenOver() throws IOException {
    Files.createDirectories(out);
    Path kept = Files.writeString(out.resolve("index.html"), "mine");
    Run run = explain("--out", out.toString());
    assertThat(run.status()).isEqualTo(2);
    assertThat(run.err()).contains("--out: " + out + ": is not empty, and a handbook writes over nothing");
    assertThat(kept).hasContent("mine");
    assertThat(explain("--out", kept.toString()).err()).contains("is not a folder");
  }

  @Test
  void aTraceHasNoPlaceInAHandbook() throws IOException {
    Path trace = Files.writeString(folder.resolve("a.csv"), "time_s,lift_run\n0,1\n");
    Run run = explain("--out", out.toString(), trace.toString());
    assertThat(run.status()).isEqualTo(2);
    assertThat(run.err()).contains("leave the trace out");
    assertThat(out).doesNotExist();
  }
}
