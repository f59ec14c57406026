package dev.pawl.report.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.Seen;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.TimeText;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Locale;

/** Writes a report as JSON. Times are given twice: as exact integer nanoseconds, and as text for people. */
public final class JsonReportWriter {

  private final JsonGenerator json;

  private JsonReportWriter(JsonGenerator json) {
    this.json = json;
  }

  /** Writes the report and a final line break; leaves {@code out} open and flushed. */
  public static void write(Report report, Writer out) throws IOException {
    JsonGenerator json = new JsonFactory().disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET).createGenerator(out);
    json.setPrettyPrinter(JsonReportFormat.layout());
    new JsonReportWriter(json).report(report);
    json.close();
    out.write('\n');
    out.flush();
  }

  private void report(Report report) throws IOException {
    json.writeStartObject();
    json.writeStringField("format", JsonReportFormat.NAME);
    json.writeNumberField("formatVersion", JsonReportFormat.VERSION);
    json.writeObjectFieldStart("tool");
    json.writeStringField("name", "pawl");
    json.writeStringField("version", report.version());
    json.writeEndObject();
    json.writeStringField("created", report.created());
    json.writeBooleanField("partial", report.partial());
    json.writeStringField("ride", report.ride());
    json.writeArrayFieldStart("cautions");
    for (String caution : Cautions.of(report)) {
      json.writeString(caution);
    }
    json.writeEndArray();
    summary(report);
    overview(report);
    json.writeArrayFieldStart("inputs");
    for (Input input : report.inputs()) {
      input(input);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("traces");
    for (TraceResult trace : report.traces()) {
      trace(trace);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void summary(Report report) throws IOException {
    json.writeObjectFieldStart("summary");
    for (Verdict verdict : Verdict.values()) {
      json.writeNumberField(verdict.label(), report.count(verdict));
    }
    json.writeNumberField("tracesNotRead", report.unjudged());
    json.writeEndObject();
  }

  private void overview(Report report) throws IOException {
    json.writeArrayFieldStart("overview");
    for (RuleOverview overview : RuleOverview.of(report)) {
      json.writeStartObject();
      json.writeStringField("id", overview.rule().id());
      json.writeStringField("verdict", overview.verdict().label());
      json.writeObjectFieldStart("traces");
      for (Verdict verdict : Verdict.values()) {
        json.writeNumberField(verdict.label(), overview.count(verdict));
      }
      json.writeEndObject();
      obligations(overview.obligations());
      if (overview.closest().isPresent()) {
        RuleOverview.InTrace closest = overview.closest().get();
        json.writeStringField("smallestMarginIn", closest.trace().path());
        margin(closest.result().margin().orElseThrow(), closest.trace().timeBase());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void input(Input input) throws IOException {
    json.writeStartObject();
    json.writeStringField("role", input.role().label());
    json.writeStringField("path", input.path());
    json.writeNumberField("bytes", input.bytes());
    json.writeStringField("sha256", input.sha256());
    json.writeEndObject();
  }

  private void trace(TraceResult trace) throws IOException {
    json.writeStartObject();
    json.writeStringField("path", trace.path());
    json.writeStringField("timeBase", trace.timeBase().label());
    time("start", trace.timeBase(), trace.start());
    time("end", trace.timeBase(), trace.end());
    json.writeNumberField("lines", trace.lines());
    json.writeNumberField("events", trace.events());
    json.writeNumberField("overwritten", trace.overwritten());
    json.writeBooleanField("partial", trace.partial());
    reading(trace.reading());
    json.writeArrayFieldStart("rules");
    for (RuleResult rule : trace.rules()) {
      rule(rule, trace.timeBase());
    }
    json.writeEndArray();
    json.writeArrayFieldStart("zones");
    for (ZoneResult zone : trace.zones()) {
      zone(zone, trace.timeBase());
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void reading(Reading reading) throws IOException {
    json.writeObjectFieldStart("reading");
    json.writeStringField("failure", reading.failure());
    json.writeArrayFieldStart("counters");
    for (Reading.Counter counter : reading.counters()) {
      json.writeStartObject();
      json.writeStringField("label", counter.label());
      json.writeNumberField("count", counter.count());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeNumberField("problemCount", reading.problemCount());
    json.writeArrayFieldStart("problems");
    for (Reading.Problem problem : reading.problems()) {
      json.writeStartObject();
      json.writeNumberField("line", problem.line());
      json.writeStringField("message", problem.message());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void rule(RuleResult result, TimeBase base) throws IOException {
    Rule rule = result.rule();
    json.writeStartObject();
    json.writeStringField("id", rule.id());
    json.writeStringField("title", rule.title());
    json.writeStringField("severity", rule.severity().name().toLowerCase(Locale.ROOT));
    json.writeStringField("basis", rule.basis());
    json.writeBooleanField("basisIsPractice", rule.basisIsPractice());
    json.writeStringField("text", rule.text());
    json.writeStringField("untried", rule.proof().untried());
    json.writeStringField("file", rule.position().file());
    json.writeNumberField("line", rule.position().line());
    json.writeNumberField("resolutionNs", rule.resolution());
    json.writeStringField("verdict", result.verdict().label());
    obligations(result.obligations());
    seen(rule, result.seen());
    if (result.margin().isPresent()) {
      margin(result.margin().get(), base);
    }
    json.writeNumberField("findingCount", result.obligations().missed() + result.undecided());
    json.writeArrayFieldStart("findings");
    findings(result.broken(), base);
    findings(result.doubtful(), base);
    json.writeEndArray();
    json.writeEndObject();
  }

  private void seen(Rule rule, Seen seen) throws IOException {
    json.writeObjectFieldStart("seen");
    if (seen.watched().isPresent()) {
      json.writeNumberField("watchedNs", seen.watched().getAsLong());
    }
    names("unseen", seen.unseen());
    names("still", seen.still());
    json.writeNumberField("unconfirmed", seen.unconfirmed());
    json.writeArrayFieldStart("tried");
    for (int trial = 0; trial < seen.tried().size(); trial++) {
      json.writeStartObject();
      json.writeStringField("by", rule.proof().trials().get(trial).text());
      json.writeNumberField("times", seen.tried().get(trial).times());
      if (seen.tried().get(trial).first().isPresent()) {
        json.writeNumberField("firstNs", seen.tried().get(trial).first().getAsLong());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void names(String field, List<String> names) throws IOException {
    json.writeArrayFieldStart(field);
    for (String name : names) {
      json.writeString(name);
    }
    json.writeEndArray();
  }

  private void obligations(Obligations obligations) throws IOException {
    json.writeObjectFieldStart("obligations");
    JsonReportFormat.obligations(json, obligations);
    json.writeEndObject();
  }

  private void margin(MarginResult margin, TimeBase base) throws IOException {
    json.writeObjectFieldStart("margin");
    json.writeNumberField("value", margin.value());
    json.writeStringField("unit", margin.unit());
    time("time", base, margin.time());
    time("trigger", base, margin.trigger());
    json.writeBooleanField("atMost", margin.atMost());
    json.writeEndObject();
  }

  private void findings(List<FindingResult> findings, TimeBase base) throws IOException {
    for (FindingResult finding : findings) {
      json.writeStartObject();
      json.writeStringField("kind", finding.kind().label());
      json.writeBooleanField("breaks", finding.kind().breaks());
      time("trigger", base, finding.trigger());
      time("time", base, finding.time());
      json.writeBooleanField("justAfter", finding.justAfter());
      if (finding.deadline().isPresent()) {
        time("deadline", base, finding.deadline().getAsLong());
      }
      if (finding.lateResponse().isPresent()) {
        time("lateResponse", base, finding.lateResponse().getAsLong());
      }
      evidence(finding.evidence(), base);
      json.writeEndObject();
    }
  }

  private void evidence(List<EvidenceResult> events, TimeBase base) throws IOException {
    json.writeArrayFieldStart("evidence");
    for (EvidenceResult event : events) {
      json.writeStartObject();
      json.writeStringField("moment", event.moment().name().toLowerCase(Locale.ROOT));
      time("time", base, event.time());
      json.writeStringField("signal", event.signal());
      json.writeStringField("value", event.value());
      json.writeStringField("file", event.file());
      json.writeNumberField("line", event.line());
      json.writeBooleanField("logged", event.wasLogged());
      if (event.writtenBy().isPresent()) {
        writtenBy(event.writtenBy().get());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void writtenBy(ProgramPlace place) throws IOException {
    json.writeObjectFieldStart("writtenBy");
    json.writeStringField("file", place.file());
    json.writeNumberField("line", place.line());
    json.writeStringField("text", place.text());
    json.writeEndObject();
  }

  private void zone(ZoneResult zone, TimeBase base) throws IOException {
    json.writeStartObject();
    json.writeStringField("name", zone.name());
    json.writeNumberField("holds", zone.holds());
    json.writeNumberField("entered", zone.entered());
    json.writeNumberField("left", zone.left());
    json.writeNumberField("least", zone.least());
    json.writeNumberField("most", zone.most());
    if (zone.start().isPresent()) {
      json.writeObjectFieldStart("start");
      json.writeNumberField("trains", zone.start().get().trains());
      json.writeBooleanField("counts", zone.start().get().counts());
      json.writeEndObject();
    }
    json.writeNumberField("findingCount", zone.findingCount());
    json.writeArrayFieldStart("findings");
    for (ZoneResult.Tracking finding : zone.findings()) {
      json.writeStartObject();
      json.writeStringField("kind", finding.kind().label());
      time("time", base, finding.time());
      if (finding.since().isPresent()) {
        time("since", base, finding.since().getAsLong());
      }
      evidence(finding.evidence(), base);
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void time(String field, TimeBase base, long time) throws IOException {
    json.writeObjectFieldStart(field);
    json.writeNumberField("ns", time);
    json.writeStringField("text", TimeText.at(base, time));
    json.writeEndObject();
  }
}
