package dev.pawl.report.json;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import dev.pawl.report.SampleRide;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;

/** report.sarif against the schema of the standard; see NOTICE beside it. */
class SarifReportWriterTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  private static JsonNode tree(Report report) throws IOException {
    StringWriter out = new StringWriter();
    SarifReportWriter.write(report, out);
    return MAPPER.readTree(out.toString());
  }

  private static Set<ValidationMessage> violations(JsonNode tree) throws IOException {
    try (InputStream schema =
        SarifReportWriterTest.class.getResourceAsStream("/dev/pawl/report/published/sarif-2.1.0.json")) {
      return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V4).getSchema(schema).validate(tree);
    }
  }

  private static List<JsonNode> results(JsonNode tree, String rule) {
    return StreamSupport.stream(tree.at("/runs/0/results").spliterator(), false)
        .filter(result -> result.at("/ruleId").asText().equals(rule)).toList();
  }

  /** The trace with a program behind the first finding of its first rule. */
  private static TraceResult ofProgram(String file) {
    TraceResult trace = SampleRide.trace();
    RuleResult rule = trace.rules().get(0);
    FindingResult finding = rule.broken().get(0);
    List<EvidenceResult> evidence = finding.evidence().stream().map(event -> event.signal().equals("lift_run")
        ? new EvidenceResult(event.moment(), event.time(), event.signal(), event.value(), event.file(), event.line(),
            true, Optional.of(new ProgramPlace(file, 41, "lift_run := TRUE;"))) : event).toList();
    List<RuleResult> rules = new ArrayList<>(trace.rules());
    rules.set(0, new RuleResult(rule.rule(), rule.obligations(), rule.margin(), rule.seen(), List.of(
        new FindingResult(finding.kind(), finding.trigger(), finding.time(), finding.justAfter(), finding.deadline(),
            finding.lateResponse(), evidence, finding.picture())), List.of()));
    return new TraceResult(trace.path(), trace.timeBase(), trace.start(), trace.end(), trace.lines(), trace.events(),
        0, false, trace.reading(), rules, trace.zones());
  }

  @Test
  void everyReportFollowsTheSchemaOfTheStandard() throws IOException {
    TraceResult unreadable = TraceResult.unreadable("C:\\logs\\gone 1.csv",
        new Reading(List.of(), List.of(), 1, "line 3: no time"));
    for (Report report : List.of(SampleRide.report(), SampleRide.decided(), SampleRide.report().requiringProof(true),
        SampleRide.report(SampleRide.trace(), unreadable), SampleRide.report(unreadable),
        SampleRide.report(ofProgram("logic/lift.st")))) {
      assertThat(violations(tree(report))).isEmpty();
    }
    ObjectNode wrong = (ObjectNode) tree(SampleRide.report());
    ((ObjectNode) wrong.at("/runs/0/results/0")).put("kind", "broken");
    assertThat(violations(wrong)).isNotEmpty();
  }

  @Test
  void whatBrokeStandsAtItsRuleWithTheLinesOfTheTraceBehindIt() throws IOException {
    JsonNode tree = tree(SampleRide.report());
    List<JsonNode> stop = results(tree, "STOP-01");
    assertThat(stop).hasSize(2);
    JsonNode first = stop.get(0);
    assertThat(first.at("/kind").asText()).isEqualTo("fail");
    assertThat(first.at("/level").asText()).isEqualTo("error");
    assertThat(first.at("/message/text").asText()).isEqualTo("traces/day.csv: triggered at 723.450 s: no response by the"
        + " deadline, 723.950 s (500 ms after the trigger); it came at 724.200 s, 250 ms late");
    JsonNode place = first.at("/locations/0/physicalLocation");
    assertThat(place.at("/artifactLocation/uri").asText()).isEqualTo("rules/sample.rules");
    assertThat(place.at("/region/startLine").asInt()).isEqualTo(12);
    assertThat(first.at("/relatedLocations/1/physicalLocation/region/startLine").asInt()).isEqualTo(1102);
    assertThat(first.at("/relatedLocations/1/message/text").asText()).isEqualTo("lift_run became true at 700.010 s");
    assertThat(tree.at("/runs/0/tool/driver/rules/" + first.at("/ruleIndex").asInt() + "/id").asText())
        .isEqualTo("STOP-01");
  }

  @Test
  void whatAProgramBrokeStandsAtItsLine() throws IOException {
    JsonNode result = results(tree(SampleRide.report(ofProgram("/site/a b/lift.st"))), "STOP-01").get(0);
    JsonNode place = result.at("/locations/0/physicalLocation");
    assertThat(place.at("/artifactLocation/uri").asText()).isEqualTo("file:///site/a%20b/lift.st");
    assertThat(place.at("/region/startLine").asInt()).isEqualTo(41);
    assertThat(result.at("/relatedLocations/0/physicalLocation/artifactLocation/uri").asText())
        .isEqualTo("rules/sample.rules");
  }

  @Test
  void whatWasSoInARideInMotionHasNoFile() throws IOException {
    TraceResult trace = ofProgram("lift.st");
    RuleResult rule = trace.rules().get(0);
    FindingResult finding = rule.broken().get(0);
    EvidenceResult event = finding.evidence().get(0);
    EvidenceResult moving = new EvidenceResult(event.moment(), event.time(), event.signal(), event.value(), "refusals",
        0);
    List<RuleResult> rules = List.of(new RuleResult(rule.rule(), rule.obligations(), rule.margin(), rule.seen(),
        List.of(new FindingResult(finding.kind(), finding.trigger(), finding.time(), finding.justAfter(),
            finding.deadline(), finding.lateResponse(), List.of(moving), finding.picture())), List.of()));
    JsonNode tree = tree(SampleRide.report(new TraceResult("refusals", trace.timeBase(), 0, 0, 0, 0, 0, false,
        trace.reading(), rules, List.of())));
    assertThat(violations(tree)).isEmpty();
    JsonNode related = results(tree, "STOP-01").get(0).at("/relatedLocations/0");
    assertThat(related.has("physicalLocation")).isFalse();
    assertThat(related.at("/message/text").asText()).startsWith("estop_chain became false at ");
  }

  @Test
  void whatIsNotProvenIsNoPassAndFailsWhereProofIsRequired() throws IOException {
    JsonNode tree = tree(SampleRide.report());
    assertThat(results(tree, "LIFT-01").get(0).at("/kind").asText()).isEqualTo("open");
    assertThat(results(tree, "ZONE-01").get(0).at("/kind").asText()).isEqualTo("notApplicable");
    assertThat(results(tree, "LIFT-02")).as("held").isEmpty();
    JsonNode required = tree(SampleRide.report().requiringProof(true));
    for (String rule : List.of("LIFT-01", "ZONE-01")) {
      assertThat(results(required, rule).get(0).at("/kind").asText()).isEqualTo("fail");
    }
  }

  @Test
  void whatIsAcceptedIsThereAndSuppressedAndAnExpiredAcceptanceIsAResult() throws IOException {
    JsonNode tree = tree(SampleRide.decided());
    JsonNode suppression = results(tree, "STOP-01").get(0).at("/suppressions/0");
    assertThat(suppression.at("/status").asText()).isEqualTo("accepted");
    assertThat(suppression.at("/justification").asText())
        .isEqualTo("accepted until 2026-12-31 by J. Smith: order 118");
    assertThat(results(tree, "decision").get(0).at("/message/text").asText())
        .isEqualTo("accept LIFT-02 in every trace: its last day was 2026-11-24; what it accepted counts again");
  }

  @Test
  void whatCouldNotBeReadIsTold() throws IOException {
    JsonNode invocation = tree(SampleRide.report(TraceResult.unreadable("gone.csv",
        new Reading(List.of(), List.of(), 1, "line 3: no time")))).at("/runs/0/invocations/0");
    assertThat(invocation.at("/executionSuccessful").asBoolean()).isFalse();
    assertThat(invocation.at("/toolExecutionNotifications/0/message/text").asText())
        .isEqualTo("gone.csv: line 3: no time");
  }
}
