package dev.pawl.mqtt.sparkplug;

import com.google.protobuf.InvalidProtocolBufferException;
import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.PayloadForm;
import dev.pawl.mqtt.binding.SparkplugSource;
import dev.pawl.mqtt.binding.TopicBinding;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.payload.Excerpts;
import dev.pawl.mqtt.payload.ReadingTaker;
import dev.pawl.trace.intake.ValueReader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.Metric;

/**
 * A reader of Sparkplug B messages. It only listens, so it never asks a node to be born again: what cannot be known
 * without that stays unknown, and is told.
 */
public final class SparkplugReader {

  private static final long MILLISECOND = 1_000_000L;

  /** A signal that a metric carries. */
  private record Bound(int signal, String device, ValueReader values) {}

  /** An edge node that some signal is bound to. */
  private static final class Watched {
    private final EdgeNode node = new EdgeNode();
    private final Map<String, Bound> byMetric = new HashMap<>();
  }

  private final Map<String, Watched> watched = new HashMap<>();

  /** A reader for all bindings to Sparkplug metrics. */
  public SparkplugReader(RuleBook book, TopicBindings bindings) {
    for (TopicBinding binding : bindings.list()) {
      if (binding.form() instanceof PayloadForm.Sparkplug place) {
        ValueReader values = ValueReader.of(book.signals().get(binding.signal()), binding.conversion());
        String device = place.source().device();
        watched.computeIfAbsent(place.source().edge().toString(), e -> new Watched()).byMetric
            .put(device + "\0" + place.metric(), new Bound(binding.signal(), device, values));
      }
    }
  }

  /**
   * Reads one message.
   *
   * @return whether the topic is one of the protocol's, from a node that some signal is bound to
   */
  public boolean read(String topic, byte[] bytes, ReadingTaker taker) {
    String[] parts = topic.split("/", -1);
    if (parts.length < 4 || parts.length > 5 || !parts[0].equals(SparkplugSource.NAMESPACE)) {
      return false;
    }
    Watched edge = watched.get(parts[1] + "/" + parts[3]);
    if (edge == null) {
      return false;
    }
    String type = parts[2];
    String device = parts.length == 5 ? parts[4] : "";
    if (type.equals("NCMD") || type.equals("DCMD")) {
      return true;
    }
    Payload payload;
    try {
      payload = Payload.parseFrom(bytes);
    } catch (InvalidProtocolBufferException e) {
      taker.anomaly(Anomaly.MALFORMED, -1, "a payload on " + Excerpts.of(topic) + " is no Sparkplug B message");
      allUnknown(edge, null, ReadingTaker.NO_TIME, taker);
      return true;
    }
    take(edge, type, device, payload, taker);
    return true;
  }

  private void take(Watched edge, String type, String device, Payload payload, ReadingTaker taker) {
    switch (type) {
      case "NBIRTH" -> {
        edge.node.birth(payload);
        allUnknown(edge, null, time(payload), taker);
        taker.anomaly(Anomaly.REBIRTH, -1, "a node was born");
        metrics(edge, "", payload, true, taker);
      }
      case "NDEATH" -> nodeDeath(edge, payload, taker);
      case "DBIRTH" -> {
        if (isInOrder(edge, payload, taker)) {
          edge.node.deviceBirth(device, payload);
          allUnknown(edge, device, time(payload), taker);
          taker.anomaly(Anomaly.REBIRTH, -1, "a device was born");
          metrics(edge, device, payload, true, taker);
        }
      }
      case "DDEATH" -> {
        if (isInOrder(edge, payload, taker)) {
          edge.node.deviceDeath(device);
          taker.anomaly(Anomaly.DEATH, -1, "a device died");
          allUnknown(edge, device, time(payload), taker);
        }
      }
      case "NDATA", "DDATA" -> {
        if (isInOrder(edge, payload, taker)) {
          data(edge, device, payload, taker);
        }
      }
      default -> taker.anomaly(Anomaly.MALFORMED, -1, Excerpts.of(type) + " is no type of Sparkplug message");
    }
  }

  private void nodeDeath(Watched edge, Payload payload, ReadingTaker taker) {
    if (!edge.node.isDeathOf(payload)) {
      taker.anomaly(Anomaly.STALE_DEATH, -1, "a death message bears the bdSeq of an earlier birth");
      return;
    }
    edge.node.death();
    taker.anomaly(Anomaly.DEATH, -1, "a node died");
    // The broker sends it on behalf of a node that is gone: its time is that of the connection's beginning.
    allUnknown(edge, null, ReadingTaker.NO_TIME, taker);
  }

  /**
   * Whether the message is to be taken at all; after a gap everything of the node that could have changed is unknown.
   */
  private boolean isInOrder(Watched edge, Payload payload, ReadingTaker taker) {
    if (!edge.node.isNodeBorn()) {
      taker.anomaly(Anomaly.BEFORE_BIRTH, -1, "a message came from a node whose birth was not seen");
      return false;
    }
    long before = edge.node.lastSequence();
    EdgeNode.Order order = edge.node.order(payload);
    if (order == EdgeNode.Order.REPEATED) {
      taker.anomaly(Anomaly.DUPLICATE, -1, "sequence number " + before + " came twice");
      return false;
    }
    if (order == EdgeNode.Order.GAP) {
      taker.anomaly(Anomaly.SEQUENCE_GAP, -1, "after sequence number " + before + " came " + payload.getSeq());
      allUnknown(edge, null, time(payload), taker);
    }
    return true;
  }

  private void data(Watched edge, String device, Payload payload, ReadingTaker taker) {
    if (!edge.node.isBorn(device)) {
      taker.anomaly(Anomaly.BEFORE_BIRTH, -1, "data came from a device whose birth was not seen");
      return;
    }
    metrics(edge, device, payload, false, taker);
  }

  private void metrics(Watched edge, String device, Payload payload, boolean birth, ReadingTaker taker) {
    for (Metric metric : payload.getMetricsList()) {
      EdgeNode.Known known = edge.node.known(device, metric);
      if (known == null) {
        taker.anomaly(Anomaly.BEFORE_BIRTH, -1, "a metric came that no birth had named");
        continue;
      }
      Bound bound = edge.byMetric.get(known.device() + "\0" + known.name());
      if (bound != null) {
        reading(bound, metric, metric.hasDatatype() ? metric.getDatatype()
            : known.type(), time(metric, payload, birth), taker);
      }
    }
  }

  private static void reading(Bound bound, Metric metric, int type, long stated, ReadingTaker taker) {
    if (metric.getIsHistorical()) {
      taker.anomaly(Anomaly.HISTORICAL, bound.signal(), "a value is marked as historical");
      return;
    }
    if (metric.getIsNull() || !MetricValues.isGood(metric)) {
      taker.anomaly(Anomaly.NOT_GOOD, bound.signal(), metric.getIsNull() ? "a value is null"
          : "a value's quality is not good");
      taker.reading(bound.signal(), EventSink.UNKNOWN, stated);
      return;
    }
    String text = MetricValues.text(metric, type);
    long value = text == null ? ValueReader.INVALID : bound.values().read(text);
    if (value == ValueReader.INVALID) {
      taker.anomaly(Anomaly.MALFORMED, bound.signal(),
          (text == null ? "a metric of its kind" : Excerpts.of(text)) + " is not " + bound.values().expectation());
    } else {
      taker.reading(bound.signal(), value, stated);
    }
  }

  private static long time(Payload payload) {
    return payload.hasTimestamp() ? payload.getTimestamp() * MILLISECOND : ReadingTaker.NO_TIME;
  }

  /** A birth says what is so when it is sent, whenever it became so. */
  private static long time(Metric metric, Payload payload, boolean birth) {
    return metric.hasTimestamp() && !birth ? metric.getTimestamp() * MILLISECOND : time(payload);
  }

  /** All signals of the node, or of one device if that is not null, become unknown. */
  private static void allUnknown(Watched edge, String device, long stated, ReadingTaker taker) {
    List<Bound> all = new ArrayList<>(edge.byMetric.values());
    all.sort((a, b) -> Integer.compare(a.signal(), b.signal()));
    for (Bound bound : all) {
      if (device == null || bound.device().equals(device)) {
        taker.reading(bound.signal(), EventSink.UNKNOWN, stated);
      }
    }
  }
}
