package dev.pawl.report.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import dev.pawl.report.compare.EdgeChange;
import dev.pawl.report.compare.OutputChanges;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.RuleChange;
import dev.pawl.report.words.Cautions;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Writes a comparison of two runs as JSON: the rules that changed, and the outputs' edges that did. Times are integer
 * nanoseconds.
 */
public final class JsonComparisonWriter {

  private final JsonGenerator json;

  private JsonComparisonWriter(JsonGenerator json) {
    this.json = json;
  }

  /** Writes the comparison and a final line break; leaves {@code out} open and flushed. */
  public static void write(String before, String after, ReportComparison rules, List<OutputChanges> outputs, Writer out)
      throws IOException {
    JsonGenerator json = new JsonFactory().disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET).createGenerator(out);
    json.setPrettyPrinter(JsonReportFormat.layout());
    new JsonComparisonWriter(json).comparison(before, after, rules, outputs);
    json.close();
    out.write('\n');
    out.flush();
  }

  private void comparison(String before, String after, ReportComparison rules, List<OutputChanges> outputs) throws IOException {
    json.writeStartObject();
    json.writeStringField("format", JsonReportFormat.COMPARISON_NAME);
    json.writeNumberField("formatVersion", JsonReportFormat.COMPARISON_VERSION);
    json.writeStringField("before", before);
    json.writeStringField("after", after);
    texts("cautions", Cautions.ALL);
    texts("differences", rules.differences());
    texts("onlyBefore", rules.onlyBefore());
    texts("onlyAfter", rules.onlyAfter());
    json.writeNumberField("unchangedRules", rules.unchanged());
    json.writeArrayFieldStart("rules");
    for (RuleChange change : rules.changes()) {
      json.writeStartObject();
      json.writeStringField("trace", change.trace());
      json.writeStringField("id", change.either().id());
      json.writeStringField("title", change.either().title());
      json.writeBooleanField("newlyBroken", change.newlyBroken());
      json.writeBooleanField("noLongerExercised", change.noLongerExercised());
      rule("before", change.before());
      rule("after", change.after());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("outputs");
    for (OutputChanges output : outputs) {
      output(output);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void texts(String field, List<String> texts) throws IOException {
    json.writeArrayFieldStart(field);
    for (String text : texts) {
      json.writeString(text);
    }
    json.writeEndArray();
  }

  private void rule(String field, Optional<RuleDigest> rule) throws IOException {
    if (rule.isEmpty()) {
      return;
    }
    json.writeObjectFieldStart(field);
    json.writeStringField("verdict", rule.get().verdict().label());
    JsonReportFormat.obligations(json, rule.get().obligations());
    if (rule.get().margin().isPresent()) {
      json.writeObjectFieldStart("margin");
      json.writeNumberField("value", rule.get().margin().get().value());
      json.writeStringField("unit", rule.get().margin().get().unit());
      json.writeBooleanField("atMost", rule.get().margin().get().atMost());
      json.writeEndObject();
    }
    json.writeEndObject();
  }

  private void output(OutputChanges output) throws IOException {
    json.writeStartObject();
    json.writeStringField("trace", output.trace());
    json.writeStringField("timeBase", output.base().label());
    json.writeStringField("signal", output.signal());
    json.writeNumberField("unchanged", output.unchanged());
    json.writeArrayFieldStart("edges");
    for (EdgeChange change : output.changes()) {
      json.writeStartObject();
      json.writeStringField("kind", change.kind().name().toLowerCase(Locale.ROOT));
      json.writeStringField("value", change.value());
      if (change.kind() != EdgeChange.Kind.ADDED) {
        json.writeNumberField("beforeNs", change.before());
      }
      if (change.kind() != EdgeChange.Kind.VANISHED) {
        json.writeNumberField("afterNs", change.after());
      }
      if (change.kind() == EdgeChange.Kind.MOVED) {
        json.writeNumberField("shiftNs", change.shift());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }
}
