package dev.pawl.report.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.report.SampleRide;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.picture.PictureRecorder;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What is written of a result is all of it. */
class JsonResultTest {

  /**
   * A result in which everything that can be there is there: pictures with unknown values, a line of a program,
   * problems.
   */
  private static TraceResult full() {
    PictureRecorder recorder = new PictureRecorder(SampleRide.book(), SampleRide.trace(), 3);
    SampleRide.play(recorder);
    TraceResult drawn = recorder.result();
    List<RuleResult> rules = new ArrayList<>(drawn.rules());
    RuleResult first = rules.get(0);
    List<FindingResult> broken = new ArrayList<>(first.broken());
    FindingResult finding = broken.get(0);
    List<EvidenceResult> evidence = new ArrayList<>(finding.evidence());
    EvidenceResult event = evidence.get(0);
    evidence.set(0, new EvidenceResult(event.moment(), -7, event.signal(), "\u0000 \"\u20ac\"\n", event.file(),
        event.line(), true, Optional.of(new ProgramPlace("lift.st", 4, "lift_run := TRUE;"))));
    broken.set(0, new FindingResult(finding.kind(), Long.MIN_VALUE, Long.MAX_VALUE, true, finding.deadline(),
        finding.lateResponse(), evidence, finding.picture()).withDrawings(List.of(SampleRide.network(),
        SampleRide.chart())));
    rules.set(0, new RuleResult(first.rule(), first.obligations(), first.margin(), first.seen(), broken,
        first.doubtful()));
    Reading reading = new Reading(List.of(new Reading.Counter("rows out of order", 3)),
        List.of(new Reading.Problem(9, "no number")), 1, "");
    return new TraceResult(drawn.path(), drawn.timeBase(), drawn.start(), drawn.end(), drawn.lines(), drawn.events(),
        drawn.overwritten(), true, reading, rules, drawn.zones());
  }

  @Test
  void aResultIsReadBackAsItWas() throws ReportFormatException {
    TraceResult full = full();
    String line = JsonResult.write(full);
    assertThat(line).doesNotContain("\n").contains("NaN", "\"late", "writtenBy");
    TraceResult read = JsonResult.read("a line", line, SampleRide.book());
    assertThat(read).usingRecursiveComparison()
        .withEqualsForType(Double::equals, Double.class).isEqualTo(full);
    assertThat(JsonResult.write(read)).isEqualTo(line);
  }

  @Test
  void noPartOfALineIsTakenForAResult() {
    String line = JsonResult.write(full());
    for (int length = 0; length < line.length(); length++) {
      String torn = line.substring(0, length);
      assertThatThrownBy(() -> JsonResult.read("a line", torn, SampleRide.book()))
          .isInstanceOf(ReportFormatException.class);
    }
  }

  @Test
  void aRuleThatIsNotThereIsSaid() {
    String line = JsonResult.write(full()).replace("STOP-01", "STOP-99");
    assertThatThrownBy(() -> JsonResult.read("a line", line, SampleRide.book()))
        .isInstanceOf(ReportFormatException.class)
        .hasMessage("a line: rules[0].rule is not as expected; expected a rule");
  }
}
