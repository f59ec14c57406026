package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A log of changes without what stood at its start, and what bindings state of that. The ride is invented. */
class StatedBeginningTest {

  /** The stop at 1 s, the drive off at 1.3 s; pressed at 12 s, which is the first that the log has of the button. */
  private static final String CHANGES = """
      time_ms,signal,value
      0,heartbeat,1
      1000,stop_chain,0
      1300,lift_run,0
      5000,stop_chain,1
      12000,button,1
      12100,lift_run,1
      12300,button,0
      """;

  @TempDir
  private Path folder;

  @BeforeEach
  void makeTheRide() throws IOException {
    write("ride.rules", """
        ride "Little Ratchet"
        resolution 10 ms
        type mode_kind = one of (off, manual, automatic)
        input  heartbeat, stop_chain, button, door_open : bool
        input  mode : mode_kind
        input  air  : psi
        output lift_run : bool
        rule R-1 "the stop stops the lift"
          severity critical
          basis practice
          when falls(stop_chain)
          must not lift_run within 500 ms
        rule R-2 "the lift starts only after a press since the stop"
          severity critical
          basis practice
          when rises(lift_run)
          must not falls(stop_chain) since rises(button)
        rule R-3 "the lift starts only with the door shut, in automatic, with air"
          severity critical
          basis practice
          when rises(lift_run)
          must not door_open and mode = automatic and air >= 80 psi
        """);
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private Session session(String bindings) throws IOException {
    RuleFiles rules = RuleFiles.load(List.of(folder.resolve("ride.rules").toString()));
    return Session.by(rules)
        .withBindings(BindingsFiles.load(write("site.bindings", bindings).toString(), rules.book()));
  }

  private TraceResult judged(Session session) throws IOException {
    return session.judge(session.traces(List.of(write("trace.csv", CHANGES).toString()))).traces().get(0);
  }

  private TraceResult judged(String bindings) throws IOException {
    return judged(session(bindings));
  }

  private static List<Verdict> verdicts(TraceResult result) {
    return result.rules().stream().map(RuleResult::verdict).toList();
  }

  private static List<String> said(TraceResult result) {
    return result.reading().counters().stream().map(Reading.Counter::label).toList();
  }

  /** The first row of each is no edge, since nobody knows what was before. */
  @Test
  void withoutAWordNothingIsTakenForGranted() throws IOException {
    TraceResult result = judged("");
    assertThat(verdicts(result).get(0)).isEqualTo(Verdict.NOT_EXERCISED);
    assertThat(verdicts(result).get(2)).isEqualTo(Verdict.NOT_EXERCISED);
    assertThat(said(result)).noneMatch(label -> label.contains("bindings state"));
  }

  @Test
  void theFirstRowOfALogOfChangesIsAChange() throws IOException {
    TraceResult result = judged("beginning\n  all was other\n");
    assertThat(verdicts(result)).startsWith(Verdict.HELD, Verdict.HELD);
    assertThat(result.rules().get(0).margin().orElseThrow().value()).isEqualTo(0.2);
    assertThat(said(result)).contains("signals taken to have been the other way before the first row, as the bindings"
        + " state: heartbeat false, stop_chain true, button false, lift_run true");
  }

  @Test
  void whatHasNoRowHasTheValueThatIsStated() throws IOException {
    String bindings = "beginning\n  door_open was false\n  mode was automatic\n  air was 90.5\n";
    TraceResult result = judged(bindings);
    assertThat(verdicts(result).get(2)).isEqualTo(Verdict.HELD);
    assertThat(result.start()).isZero();
    assertThat(said(result)).contains("signals taken to have been so before the first row, as the bindings state:"
        + " door_open false, mode automatic, air 90.5 psi").noneMatch(label -> label.contains("no event"));
    assertThat(verdicts(judged(bindings.replace("automatic", "manual"))).get(2)).isEqualTo(Verdict.BROKEN);
  }

  /** A row at the first instant, and any later one, says more. */
  @Test
  void aRowGoesBeforeWhatIsStated() throws IOException {
    TraceResult result = judged("beginning\n  heartbeat was false\n  stop_chain was true\n  lift_run was true\n");
    assertThat(result.overwritten()).isZero();
    assertThat(verdicts(result).get(0)).isEqualTo(Verdict.HELD);
  }

  @Test
  void whatIsStatedOfASignalGoesBeforeWhatIsStatedOfAll() throws IOException {
    TraceResult result = judged("beginning\n  all was other\n  stop_chain was false\n");
    assertThat(verdicts(result).get(0)).isEqualTo(Verdict.NOT_EXERCISED);
  }

  /** A program sees it too: the drive that was on runs on until the stop. */
  @Test
  void logicUnderTestBeginsWithIt() throws IOException {
    write("lift.st", """
        PROGRAM Lift
        VAR_INPUT stop_chain, door_open : BOOL; END_VAR
        VAR_OUTPUT lift_run : BOOL; END_VAR
        lift_run := stop_chain AND NOT door_open;
        END_PROGRAM
        """);
    Session session = session("beginning\n  all was other\n  door_open was false\n");
    LogicFiles logic = LogicFiles.load(List.of(folder.resolve("lift.st").toString()));
    TraceResult result = judged(session.withController(LogicController.of(session.rules(), logic,
        LogicSettings.DEFAULT)));
    assertThat(result.rules().get(0).obligations().met()).isEqualTo(1);
  }
}
