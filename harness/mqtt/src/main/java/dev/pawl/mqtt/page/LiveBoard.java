package dev.pawl.mqtt.page;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.Verdict;
import dev.pawl.engine.ZoneOutcome;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.evidence.DoubtedVerdict;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.report.exercise.Exercise;
import dev.pawl.report.exercise.ExerciseBoard;
import dev.pawl.report.words.ValueText;
import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.time.TimeWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Set;

/**
 * What the page shows, as JSON. The thread that runs the session writes it; any number of pages read the last picture,
 * and wait for the next.
 */
public final class LiveBoard implements FindingListener {

  private static final JsonFactory FACTORY = new JsonFactory();

  private final RuleBook book;
  private final List<TrackOrder.Stretch> track;
  private final List<Set<Integer>> readBy;
  private final ExerciseBoard exercises;
  private final LastFindings findings;
  private final PresentValues present;
  private String picture = "{}";
  private long version;
  private boolean closed;

  public LiveBoard(RuleBook book) {
    this.book = book;
    this.track = TrackOrder.of(book);
    this.readBy = book.rules().stream().map(rule -> RuleParts.signals(rule, book)).toList();
    this.exercises = new ExerciseBoard(book);
    this.findings = new LastFindings(book);
    this.present = new PresentValues(book.signals().size());
  }

  /** What passes all events on to a judge, so that the page shows what the judge is told. */
  public EventSink before(EventSink judge) {
    return present.before(judge);
  }

  @Override
  public void finding(Finding finding) {
    findings.finding(finding);
  }

  @Override
  public void tracking(TrackingFinding finding) {
    findings.tracking(finding);
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    findings.lateResponse(rule, trigger, deadline, time);
  }

  private static String time(long nanoseconds) {
    return TimeWriter.of(nanoseconds, TimeScale.RFC_3339);
  }

  /**
   * How the feed stands.
   *
   * @param time nanoseconds, up to which all was judged
   * @param connected whether there is a connection
   * @param messages how many have come
   * @param quiet nanoseconds since the last one
   * @param missing what has not been heard, in sentences
   * @param evidence what makes the evidence doubtful
   */
  public record Feed(long time, boolean connected, long messages, long quiet, List<String> missing,
      List<EvidenceLog.Item> evidence) {}

  /** Draws a new picture for all pages. */
  public void draw(TraceOutcome outcome, Feed feed) {
    StringWriter text = new StringWriter();
    try (JsonGenerator generator = FACTORY.createGenerator(text)) {
      generator.writeStartObject();
      generator.writeStringField("ride", book.ride());
      generator.writeStringField("time", time(feed.time()));
      generator.writeBooleanField("connected", feed.connected());
      generator.writeNumberField("messages", feed.messages());
      generator.writeNumberField("quietSeconds", feed.quiet() / 1_000_000_000L);
      strings(generator, "missing", feed.missing());
      track(generator, outcome);
      exercises(generator, exercises.after(outcome));
      unknown(generator);
      rules(generator, outcome, feed.evidence());
      findings(generator);
      evidence(generator, feed.evidence());
      generator.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    show(text.toString());
  }

  private static void strings(JsonGenerator generator, String name, Iterable<String> texts) throws IOException {
    generator.writeArrayFieldStart(name);
    for (String text : texts) {
      generator.writeString(text);
    }
    generator.writeEndArray();
  }

  private void track(JsonGenerator generator, TraceOutcome outcome) throws IOException {
    generator.writeArrayFieldStart("track");
    for (TrackOrder.Stretch stretch : track) {
      ZoneOutcome zone = outcome.zones().get(stretch.zone().index());
      generator.writeStartObject();
      generator.writeStringField("name", stretch.zone().name());
      generator.writeNumberField("least", zone.least());
      generator.writeNumberField("most", zone.most());
      generator.writeNumberField("findings", zone.findings());
      flags(generator, "entry", stretch.entry());
      flags(generator, "exit", stretch.exit());
      generator.writeEndObject();
    }
    generator.writeEndArray();
  }

  private void flags(JsonGenerator generator, String name, Set<Integer> signals) throws IOException {
    generator.writeArrayFieldStart(name);
    for (int index : signals) {
      Signal signal = book.signals().get(index);
      generator.writeStartObject();
      generator.writeStringField("name", signal.name());
      generator.writeStringField("value", present.isUnknown(index) ? "unknown" : signal.type().isBool()
          ? present.of(index) != 0 ? "on" : "off" : ValueText.of(signal.type(), present.of(index)));
      generator.writeStringField("since", present.hasBegun(index) ? time(present.since(index)) : "");
      generator.writeEndObject();
    }
    generator.writeEndArray();
  }

  private void exercises(JsonGenerator generator, List<Exercise> board) throws IOException {
    generator.writeArrayFieldStart("exercises");
    for (Exercise exercise : board) {
      generator.writeStartObject();
      generator.writeStringField("id", exercise.rule().id());
      generator.writeStringField("title", exercise.rule().title());
      generator.writeBooleanField("tried", exercise.tried());
      generator.writeStringField("remark", exercise.remark());
      generator.writeArrayFieldStart("ways");
      for (Exercise.Way way : exercise.ways()) {
        generator.writeStartObject();
        generator.writeStringField("words", way.words());
        generator.writeNumberField("times", way.times());
        generator.writeEndObject();
      }
      generator.writeEndArray();
      generator.writeEndObject();
    }
    generator.writeEndArray();
  }

  /** Each signal that is not known now, once, with the rules that read it. */
  private void unknown(JsonGenerator generator) throws IOException {
    generator.writeArrayFieldStart("unknown");
    for (Signal signal : book.signals()) {
      if (present.isUnknown(signal.index())) {
        generator.writeStartObject();
        generator.writeStringField("signal", signal.name());
        generator.writeStringField("since", present.hasBegun(signal.index()) ? time(present.since(signal.index()))
            : "");
        strings(generator, "rules", book.rules().stream().filter(rule -> readBy.get(rule.index())
            .contains(signal.index())).map(Rule::id).toList());
        generator.writeEndObject();
      }
    }
    generator.writeEndArray();
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

  private void findings(JsonGenerator generator) throws IOException {
    generator.writeArrayFieldStart("findings");
    for (LastFindings.Entry entry : findings.list()) {
      generator.writeStartObject();
      generator.writeStringField("time", time(entry.time()));
      generator.writeStringField("subject", entry.subject());
      generator.writeStringField("title", entry.title());
      generator.writeStringField("what", entry.what());
      generator.writeStringField("values", entry.values());
      generator.writeStringField("verdict", entry.verdict().map(Verdict::label).orElse(""));
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
