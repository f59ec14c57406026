package dev.pawl.mqtt.live;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import dev.pawl.engine.Caution;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.LastWill;
import dev.pawl.mqtt.client.PublishingConnection;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.time.TimeWriter;
import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.Optional;

/**
 * Tells others of findings, as JSON on {@code PREFIX/RULE} and {@code PREFIX/zone/ZONE}; where this program vanishes,
 * the broker says {@code gone} on {@code PREFIX/state}. A connection of its own, apart from the one that listens; its
 * permit covers topics under the prefix only.
 */
public final class VerdictPublisher implements FindingListener, Closeable {

  private static final JsonFactory FACTORY = new JsonFactory();

  private final RuleBook book;
  private final VerdictTopics topics;
  private final PublishingConnection connection;
  private long untold;

  /**
   * Connects.
   *
   * @throws ConnectionTrouble if no connection can be made
   */
  public VerdictPublisher(RuleBook book, VerdictTopics topics, ConnectionSettings settings, HarnessClock clock) {
    this.book = book;
    this.topics = topics;
    this.connection = new PublishingConnection(settings, settings.clientId(),
        Optional.of(new LastWill(topics.of("state"), "gone")),
        topics::refusal, clock);
  }

  @Override
  public void finding(Finding finding) {
    Rule rule = book.rules().get(finding.rule());
    send(rule.id(), generator -> {
      generator.writeStringField("rule", rule.id());
      generator.writeStringField("title", rule.title());
      generator.writeStringField("verdict", finding.kind().breaks() ? "broken" : "undecided");
      generator.writeStringField("kind", finding.kind().label());
      generator.writeStringField("trigger", TimeWriter.of(finding.trigger(), TimeScale.RFC_3339));
      generator.writeStringField("time", TimeWriter.of(finding.time(), TimeScale.RFC_3339));
    });
  }

  @Override
  public void tracking(TrackingFinding finding) {
    String zone = book.zones().get(finding.zone()).name();
    send("zone/" + zone, generator -> {
      generator.writeStringField("zone", zone);
      generator.writeStringField("kind", finding.kind().label());
      generator.writeStringField("time", TimeWriter.of(finding.time(), TimeScale.RFC_3339));
    });
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    // The finding was told when the deadline passed.
  }

  /** Writes the members of an object. */
  private interface Members {
    void write(JsonGenerator generator) throws IOException;
  }

  private void send(String topic, Members members) {
    if (!connection.hasRoom()) {
      untold++;
      return;
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (JsonGenerator generator = FACTORY.createGenerator(bytes)) {
      generator.writeStartObject();
      members.write(generator);
      generator.writeStringField("caution", Caution.PROTECTION.text());
      generator.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    try {
      connection.publish(topics.of(topic), bytes.toByteArray(), false, Inbound.NO_NUMBER);
    } catch (ConnectionTrouble e) {
      untold++;
    }
  }

  /** Findings that could not be told because the broker took none. */
  public long untold() {
    return untold;
  }

  @Override
  public void close() {
    try {
      connection.awaitAcknowledged(Duration.ofSeconds(5));
    } catch (ConnectionTrouble e) {
      untold++;
    } finally {
      connection.close();
    }
  }
}
