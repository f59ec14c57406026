package dev.pawl.report.json;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import dev.pawl.engine.EventSink;
import dev.pawl.report.SampleRide;
import dev.pawl.report.compare.EdgeLog;
import dev.pawl.report.compare.LineChange;
import dev.pawl.report.compare.OutputChanges;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.ReportDigest.TraceDigest;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.TimeBase;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A comparison against its schema, with a validator that shares no code with the writer. */
class JsonComparisonWriterTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @Test
  void everyComparisonFollowsTheSchema() throws IOException {
    JsonNode tree = tree();
    assertThat(violations(tree)).isEmpty();
    assertThat(tree.at("/rules").size()).isEqualTo(2);
    assertThat(tree.at("/onlyAfter/0").asText()).isEqualTo("night.csv");
    assertThat(tree.at("/outputs/0/edges").findValuesAsText("kind")).contains("moved", "vanished");
    assertThat(tree.at("/lines").findValuesAsText("effect")).containsExactly("differed", "never-ran", "no-statement");
  }

  @Test
  void theSchemaRefusesWhatItMust() throws IOException {
    ObjectNode neither = (ObjectNode) tree();
    ((ObjectNode) neither.at("/rules/1")).remove(List.of("before", "after"));
    assertThat(violations(neither)).isNotEmpty();
    ObjectNode extra = (ObjectNode) tree();
    ((ObjectNode) extra.at("/outputs/0/edges/0")).put("colour", "blue");
    assertThat(violations(extra)).isNotEmpty();
  }

  /** One rule gone, one changed, a trace that only the later run has, an edge that moved and one that vanished. */
  private static JsonNode tree() throws IOException {
    ReportDigest before = ReportDigest.of("before.json", SampleRide.report());
    TraceDigest trace = before.traces().get(0);
    List<RuleDigest> rules = new ArrayList<>(trace.rules());
    RuleDigest gone = rules.remove(4);
    RuleDigest held = rules.get(0);
    rules.set(0, new RuleDigest(held.id(), held.title(), gone.verdict(), gone.obligations(), gone.margin(),
        List.of()));
    ReportDigest after = new ReportDigest("after.json", false, List.of(new TraceDigest(trace.path(), rules),
        new TraceDigest("night.csv", List.of())));
    EdgeLog early = edges(1000, 5000);
    EdgeLog late = edges(1200);
    List<OutputChanges> outputs = OutputChanges.of(trace.path(), TimeBase.START, SampleRide.book(), early, late);
    StringWriter out = new StringWriter();
    JsonComparisonWriter.write("before.json", "after.json", ReportComparison.of(before, after), outputs, lines(), out);
    return MAPPER.readTree(out.toString());
  }

  /** One that came into play, one that did not, and a new declaration. */
  private static List<LineChange> lines() {
    Optional<ProgramPlace> place = Optional.of(new ProgramPlace("lift.st", 12, "run := FALSE;"));
    Optional<LineChange.Instant> instant = Optional.of(new LineChange.Instant("day.csv", TimeBase.START, 1200));
    return List.of(new LineChange(place, place, LineChange.Effect.DIFFERED, 100, 100, 7, instant, instant),
        new LineChange(place, Optional.empty(), LineChange.Effect.NEVER_RAN, 0, 0, 0, Optional.empty(),
        Optional.empty()),
        new LineChange(Optional.empty(), place, LineChange.Effect.NO_STATEMENT, 0, 0, 0, Optional.empty(),
        Optional.empty()));
  }

  private static EdgeLog edges(long... milliseconds) {
    EdgeLog log = new EdgeLog(SampleRide.book(), new EventSink() {
      @Override
      public void event(long time, int signal, long value, long line) {}

      @Override
      public void advanceTo(long time) {}
    });
    log.event(0, SampleRide.MODE, 0, 0);
    for (int i = 0; i < milliseconds.length; i++) {
      log.event(milliseconds[i] * SampleRide.MS, SampleRide.MODE, 1 - i % 2, 0);
    }
    return log;
  }

  private static Set<ValidationMessage> violations(JsonNode tree) throws IOException {
    try (InputStream schema = JsonReportFormat.comparisonSchema()) {
      return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(schema).validate(tree);
    }
  }
}
