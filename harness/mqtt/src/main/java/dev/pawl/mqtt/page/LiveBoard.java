package dev.pawl.mqtt.page;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Evidence;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.ZoneOutcome;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.evidence.DoubtedVerdict;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.trace.output.ValueSpelling;
import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.time.TimeWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.List;

/**
 * What the page shows, as JSON. The thread that runs the session writes it; any number of pages read the last picture,
 * and wait for the next.
 */
public final class LiveBoard implements FindingListener {

  private static final int LAST_FINDINGS = 30;
  private static final JsonFactory FACTORY = new JsonFactory();

  /** One of the last findings, in words. */
  private record Entry(String time, String subject, String what, List<String> values, boolean breaks) {}

  private final RuleBook book;
  private final ValueSpelling values;
  private final ArrayDeque<Entry> last = new ArrayDeque<>();
  private String picture = "{}";
  private long version;
  private boolean closed;

  public LiveBoard(RuleBook book) {
    this.book = book;
    this.values = new ValueSpelling(book.signals());
  }

  @Override
  public void finding(Finding finding) {
    Rule rule = book.rules().get(finding.rule());
    add(new Entry(time(finding.time()), rule.id() + " " + rule.title(), finding.kind().label(),
        finding.evidence().stream().map(this::value).toList(), finding.kind().breaks()));
  }

  @Override
  public void tracking(TrackingFinding finding) {
    add(new Entry(time(finding.time()), "zone " + book.zones().get(finding.zone()).name(), finding.kind().label(),
        finding.evidence().stream().map(this::value).toList(), true));
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    add(new Entry(time(time), book.rules().get(rule).id(), "the missing response came", List.of(), false));
  }

  private void add(Entry entry) {
    last.addFirst(entry);
    if (last.size() > LAST_FINDINGS) {
      last.removeLast();
    }
  }

  private String value(Evidence evidence) {
    String text = evidence.value() == EventSink.UNKNOWN ? "unknown" : values.of(evidence.signal(), evidence.value());
    return book.signals().get(evidence.signal()).name() + " = " + text;
  }

  private static String time(long nanoseconds) {
    return TimeWriter.of(nanoseconds, TimeScale.RFC_3339);
  }

  /** Draws a new picture for all pages. */
  public void draw(TraceOutcome outcome, long time, boolean connected, long messages, List<EvidenceLog.Item> evidence) {
    StringWriter text = new StringWriter();
    try (JsonGenerator generator = FACTORY.createGenerator(text)) {
      generator.writeStartObject();
      generator.writeStringField("ride", book.ride());
      generator.writeStringField("time", time(time));
      generator.writeBooleanField("connected", connected);
      generator.writeNumberField("messages", messages);
      rules(generator, outcome, evidence);
      zones(generator, outcome);
      findings(generator);
      evidence(generator, evidence);
      generator.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    show(text.toString());
  }

  private void rules(JsonGenerator generator, TraceOutcome outcome, List<EvidenceLog.Item> evidence)
      throws IOException {
    generator.writeArrayFieldStart("rules");
    for (RuleOutcome rule : outcome.rules()) {
      generator.writeStartObject();
      generator.writeStringField("id", book.rules().get(rule.rule()).id());
      generator.writeStringField("title", book.rules().get(rule.rule()).title());
      generator.writeStringField("verdict", DoubtedVerdict.of(rule, book, evidence).label());
      generator.writeNumberField("met", rule.obligations().met());
      generator.writeNumberField("missed", rule.obligations().missed());
      generator.writeEndObject();
    }
    generator.writeEndArray();
  }

  private void zones(JsonGenerator generator, TraceOutcome outcome) throws IOException {
    generator.writeArrayFieldStart("zones");
    for (ZoneOutcome zone : outcome.zones()) {
      generator.writeStartObject();
      generator.writeStringField("name", book.zones().get(zone.zone()).name());
      generator.writeStringField("trains", zone.least() == zone.most() ? Integer.toString(zone.least()) : "not known");
      generator.writeNumberField("findings", zone.findings());
      generator.writeEndObject();
    }
    generator.writeEndArray();
  }

  private void findings(JsonGenerator generator) throws IOException {
    generator.writeArrayFieldStart("findings");
    for (Entry entry : last) {
      generator.writeStartObject();
      generator.writeStringField("time", entry.time());
      generator.writeStringField("subject", entry.subject());
      generator.writeStringField("what", entry.what());
      generator.writeStringField("values", String.join(", ", entry.values()));
      generator.writeBooleanField("breaks", entry.breaks());
      generator.writeEndObject();
    }
    generator.writeEndArray();
  }

  private void evidence(JsonGenerator generator, List<EvidenceLog.Item> evidence) throws IOException {
    generator.writeArrayFieldStart("evidence");
    for (EvidenceLog.Item item : evidence) {
      generator.writeStartObject();
      generator.writeNumberField("count", item.count());
      generator.writeStringField("what", item.anomaly().label());
      generator.writeStringField("signals", signals(item));
      generator.writeStringField("treatment", item.anomaly().treatment());
      generator.writeStringField("first", item.firstDetail());
      generator.writeEndObject();
    }
    generator.writeEndArray();
  }

  private String signals(EvidenceLog.Item item) {
    return item.signals().size() == book.signals().size() ? "all"
        : String.join(", ", item.signals().stream().map(signal -> book.signals().get(signal).name()).toList());
  }

  private synchronized void show(String next) {
    picture = next;
    version++;
    notifyAll();
  }

  /** A picture with its number. */
  record Picture(String json, long version) {}

  /**
   * The picture after the given one, waiting at most so long for it; the same one again if none came; null once closed.
   */
  synchronized Picture after(long seen, long milliseconds) throws InterruptedException {
    if (version <= seen && !closed) {
      wait(milliseconds);
    }
    return closed ? null : new Picture(picture, version);
  }

  synchronized void close() {
    closed = true;
    notifyAll();
  }
}
