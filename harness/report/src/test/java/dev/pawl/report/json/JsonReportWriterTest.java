package dev.pawl.report.json;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import dev.pawl.report.SampleRide;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** report.json against its schema, with a validator that shares no code with the writer. */
class JsonReportWriterTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @Test
  void everyReportFollowsTheSchema() throws IOException {
    TraceResult unreadable = TraceResult.unreadable("gone.csv",
        new Reading(List.of(), List.of(), 1, "line 3: no time"));
    for (Report report : List.of(SampleRide.report(), SampleRide.drawn(), SampleRide.decided(),
        SampleRide.report(SampleRide.trace(), unreadable))) {
      assertThat(violations(tree(report))).isEmpty();
    }
  }

  @Test
  void theSchemaRefusesWhatItMust() throws IOException {
    ObjectNode wrongVerdict = (ObjectNode) tree(SampleRide.report());
    ((ObjectNode) wrongVerdict.at("/traces/0/rules/0")).put("verdict", "passed");
    assertThat(violations(wrongVerdict)).isNotEmpty();
    ObjectNode extraField = (ObjectNode) tree(SampleRide.report());
    ((ObjectNode) extraField.at("/traces/0/zones/0")).put("colour", "blue");
    assertThat(violations(extraField)).isNotEmpty();
    ObjectNode noEvidence = (ObjectNode) tree(SampleRide.report());
    ((ObjectNode) noEvidence.at("/traces/0/rules/0/findings/0")).remove("evidence");
    assertThat(violations(noEvidence)).isNotEmpty();
  }

  @Test
  void aBrokenRuleNamesTriggerBreakLateResponseValuesAndPlaces() throws IOException {
    JsonNode rule = tree(SampleRide.report()).at("/traces/0/rules/0");
    assertThat(rule.at("/verdict").asText()).isEqualTo("broken");
    assertThat(rule.at("/findingCount").asLong()).isEqualTo(3);
    assertThat(rule.at("/findings").size()).isEqualTo(2);
    assertThat(rule.at("/findings/0/trigger/text").asText()).isEqualTo("723.450 s");
    assertThat(rule.at("/findings/0/time/ns").asLong()).isEqualTo(723_950_000_000L);
    assertThat(rule.at("/findings/0/lateResponse/text").asText()).isEqualTo("724.200 s");
    assertThat(rule.at("/findings/1/lateResponse").isMissingNode()).isTrue();
    assertThat(rule.at("/findings/0/evidence/1/signal").asText()).isEqualTo("lift_run");
    assertThat(rule.at("/findings/0/evidence/1/value").asText()).isEqualTo("true");
    assertThat(rule.at("/findings/0/evidence/1/file").asText()).isEqualTo(SampleRide.TRACE);
    assertThat(rule.at("/findings/0/evidence/1/line").asLong()).isEqualTo(1102);
  }

  @Test
  void aMarginIsInTheUnitThatTheSignalIsDeclaredWith() throws IOException {
    JsonNode margin = tree(SampleRide.report()).at("/traces/0/rules/1/margin");
    assertThat(margin.at("/unit").asText()).isEqualTo("mph");
    assertThat(margin.at("/value").asDouble()).isEqualTo(1.0);
  }

  @Test
  void theOverviewCountsEachRuleOverAllTracesAndSaysWhereItsMarginIsSmallest() throws IOException {
    TraceResult unreadable = TraceResult.unreadable("gone.csv",
        new Reading(List.of(), List.of(), 1, "line 3: no time"));
    JsonNode report = tree(SampleRide.report(unreadable, SampleRide.trace(), SampleRide.trace()));
    assertThat(report.at("/summary/tracesNotRead").asLong()).isEqualTo(1);
    assertThat(report.at("/overview").size()).isEqualTo(5);
    JsonNode stop = report.at("/overview/0");
    assertThat(stop.at("/verdict").asText()).isEqualTo("broken");
    assertThat(stop.at("/traces/broken").asLong()).isEqualTo(2);
    assertThat(stop.at("/obligations/met").asLong()).isEqualTo(22);
    assertThat(stop.at("/obligations/missed").asLong()).isEqualTo(6);
    assertThat(stop.at("/smallestMarginIn").asText()).isEqualTo(SampleRide.TRACE);
    assertThat(stop.at("/margin/value").asDouble()).isEqualTo(-0.25);
    assertThat(report.at("/overview/2/verdict").asText()).isEqualTo("not-exercised");
    assertThat(report.at("/overview/2/margin").isMissingNode()).isTrue();
  }

  private static Set<ValidationMessage> violations(JsonNode tree) throws IOException {
    try (InputStream schema = JsonReportFormat.schema()) {
      JsonSchema compiled = JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(schema);
      return compiled.validate(tree);
    }
  }

  private static JsonNode tree(Report report) throws IOException {
    StringWriter out = new StringWriter();
    JsonReportWriter.write(report, out);
    return MAPPER.readTree(out.toString());
  }
}
