package dev.pawl.junit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.platform.engine.TestExecutionResult;
import org.junit.platform.engine.discovery.DiscoverySelectors;
import org.junit.platform.launcher.LauncherDiscoveryRequest;
import org.junit.platform.launcher.TestExecutionListener;
import org.junit.platform.launcher.TestIdentifier;
import org.junit.platform.launcher.core.LauncherDiscoveryRequestBuilder;
import org.junit.platform.launcher.core.LauncherFactory;

/** What becomes of methods with the annotation, as JUnit's own launcher sees it. */
class RuleTestTest {

  private static final String SITE = "target/site-of-somebody";

  @BeforeAll
  static void write() throws IOException {
    Site.write(Path.of(SITE));
  }

  /** Methods as others write them; they are run by name, not as tests of this build. */
  static class OfSomebody {

    @RuleTest(rules = SITE + "/stand.rules", traces = SITE + "/day.csv")
    void plain() {}

    @RuleTest(rules = SITE + "/stand.rules", traces = SITE + "/day.csv", requireProof = true)
    void proven() {}

    @RuleTest(rules = SITE + "/stand.rules", traces = SITE + "/day.csv", decisions = SITE + "/site.decisions")
    void accepted() {}

    @RuleTest(rules = SITE + "/stand.rules", traces = SITE + "/day.csv", decisions = SITE + "/site.decisions",
        acceptedPass = true)
    void passed() {}

    @RuleTest(rules = SITE + "/stand.rules", traces = SITE + "/day.csv", logic = SITE + "/lift.st")
    void replayed() {}

    @RuleTest(rules = SITE + "/stand.rules", traces = SITE + "/torn.csv")
    void torn() {}

    @RuleTest(rules = SITE + "/wrong.rules", traces = SITE + "/day.csv")
    void wrong() {}

    @RuleTest(rules = SITE + "/stand.rules")
    void empty() {}
  }

  /** A line for each test and container that did not just succeed, and for each test that did. */
  private static List<String> run(String method) {
    List<String> lines = new ArrayList<>();
    LauncherDiscoveryRequest request = LauncherDiscoveryRequestBuilder.request()
        .selectors(DiscoverySelectors.selectMethod(OfSomebody.class, method)).build();
    LauncherFactory.create().execute(request, new TestExecutionListener() {
      @Override
      public void executionFinished(TestIdentifier test, TestExecutionResult result) {
        boolean succeeded = result.getStatus() == TestExecutionResult.Status.SUCCESSFUL;
        if (test.isTest() || !succeeded) {
          lines.add(result.getStatus() + " " + test.getDisplayName() + result.getThrowable()
              .map(thrown -> ": " + thrown.getMessage()).orElse(""));
        }
      }
    });
    return lines;
  }

  private static final String DAY = " (" + SITE + "/day.csv)";
  private static final String HELD = "SUCCESSFUL HORN-01 The horn sounds at a stop" + DAY;
  private static final String LATE = "no response by the deadline, 1.100 s (100 ms after the trigger); it came at"
      + " 1.300 s, 200 ms late";

  @Test
  void aRuleThatHeldPassesABrokenOneFailsAndOneThatWasNotExercisedIsSkipped() {
    List<String> lines = run("plain");
    assertThat(lines).hasSize(3).contains(HELD);
    assertThat(lines.get(0)).startsWith("FAILED STOP-01 E-stop stops the lift" + DAY + ": " + LATE)
        .contains("when falls(estop_chain) must not lift_run within 100 ms  (" + SITE + "/stand.rules:7)",
            SITE + "/day.csv:6: estop_chain became false at 1.000 s", SITE + "/day.csv:4: lift_run became true");
    assertThat(lines.get(2)).startsWith("ABORTED DOOR-01").contains("not exercised: ");
  }

  @Test
  void whereProofIsRequiredWhatWasNotExercisedFails() {
    assertThat(run("proven").get(2)).startsWith("FAILED DOOR-01").contains("not exercised: ");
  }

  @Test
  void whatIsAcceptedFailsAndSaysSoUnlessItIsToPass() {
    assertThat(run("accepted").get(0)).startsWith("FAILED STOP-01 E-stop stops the lift" + DAY
        + ": accepted until 2999-12-31 by J. Smith: " + LATE);
    assertThat(run("passed").get(0)).startsWith("ABORTED STOP-01")
        .contains("accepted until 2999-12-31 by J. Smith: " + LATE);
  }

  @Test
  void logicIsReplayed() {
    assertThat(run("replayed")).contains(HELD, "SUCCESSFUL STOP-01 E-stop stops the lift" + DAY);
  }

  @Test
  void aTraceThatCannotBeReadFails() {
    assertThat(run("torn")).hasSize(1);
    assertThat(run("torn").get(0)).startsWith("FAILED the trace can be read: " + SITE + "/torn.csv: ");
  }

  @Test
  void rulesThatAreWrongAndNoTracesAreTold() {
    assertThat(run("wrong").get(0)).startsWith("FAILED wrong(").contains(SITE + "/wrong.rules:", "error:",
        "the rules have");
    assertThat(run("empty").get(0)).contains("no trace: name at least one with 'traces'");
  }
}
