package dev.pawl.mqtt.sparkplug;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.payload.ReadingTaker;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.trace.bindings.BindingsFile;
import java.util.ArrayList;
import java.util.List;
import org.eclipse.tahu.protobuf.SparkplugBProto.DataType;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.Metric;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.PropertySet;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.PropertyValue;
import org.junit.jupiter.api.Test;

/** Rules of Sparkplug 3 (ISO/IEC 20237), from memory. */
class SparkplugReaderTest {

  private static final TopicBindings BINDINGS = TopicBindings.resolve(BindingsFile.parse(new Source("t", """
      topics
        near_flag  on sparkplug "park/plc" metric "Near"
        lift_run   on sparkplug "park/plc/drive" metric "Run"
        lift_speed on sparkplug "park/plc/drive" metric "Speed" in mm/s
      """)), Ride.BOOK).bindings();

  private final List<String> told = new ArrayList<>();
  private final SparkplugReader reader = new SparkplugReader(Ride.BOOK, BINDINGS);
  private final ReadingTaker taker = new ReadingTaker() {
    @Override
    public void traced(int signal, long value, long time) {
      throw new AssertionError("a metric states its sender's time");
    }

    @Override
    public void reading(int signal, long value, long stated) {
      boolean number = signal == Ride.signal("lift_speed");
      told.add(Ride.BOOK.signals().get(signal).name() + "=" + (value == EventSink.UNKNOWN ? "unknown"
          : number ? Double.toString(Double.longBitsToDouble(value)) : Long.toString(value))
              + (stated == NO_TIME ? "" : "@" + stated / 1_000_000));
    }

    @Override
    public void anomaly(Anomaly anomaly, int signal, String what) {
      told.add(anomaly.name());
    }
  };

  private List<String> send(String type, String device, Payload.Builder payload) {
    told.clear();
    String topic = "spBv1.0/park/" + type + "/plc" + (device.isEmpty() ? "" : "/" + device);
    assertThat(reader.read(topic, payload.build().toByteArray(), taker)).isTrue();
    return told;
  }

  private static Payload.Builder payload(long sequence, Metric.Builder... metrics) {
    Payload.Builder payload = Payload.newBuilder().setTimestamp(9).setSeq(sequence);
    for (Metric.Builder metric : metrics) {
      payload.addMetrics(metric);
    }
    return payload;
  }

  private static Metric.Builder metric() {
    return Metric.newBuilder().setTimestamp(5);
  }

  private void born() {
    send("NBIRTH", "", payload(0, metric().setName("bdSeq").setLongValue(4), metric().setName("Near").setAlias(1)
        .setDatatype(DataType.Boolean.getNumber()).setBooleanValue(true)));
    assertThat(told).contains("near_flag=1@9", "REBIRTH");
    send("DBIRTH", "drive", payload(1,
        metric().setName("Run").setAlias(2).setDatatype(DataType.Boolean.getNumber()).setBooleanValue(false),
        metric().setName("Speed").setAlias(3).setDatatype(DataType.Int16.getNumber()).setIntValue(0)));
    assertThat(told).contains("lift_run=0@9", "lift_speed=0.0@9");
  }

  @Test
  void dataIsNamedByAliasAndSignedNumbersAreSigned() {
    born();
    assertThat(send("DDATA", "drive", payload(2, metric().setAlias(3).setIntValue(0xFFF6))))
        .containsExactly("lift_speed=-0.01@5");
    assertThat(send("NDATA", "", payload(3, Metric.newBuilder().setAlias(1).setBooleanValue(false))))
        .containsExactly("near_flag=0@9");
  }

  @Test
  void sequenceNumbersGoTo255AndStartAgain() {
    born();
    for (int sequence = 2; sequence < 256; sequence++) {
      assertThat(send("NDATA", "", payload(sequence))).isEmpty();
    }
    assertThat(send("NDATA", "", payload(0))).isEmpty();
    assertThat(send("NDATA", "", payload(0))).containsExactly("DUPLICATE");
    assertThat(send("DDATA", "drive", payload(2, metric().setAlias(2).setBooleanValue(true))))
        .containsExactly("SEQUENCE_GAP", "near_flag=unknown@9", "lift_run=unknown@9", "lift_speed=unknown@9",
            "lift_run=1@5");
  }

  @Test
  void deathsMakeUnknownAndOldDeathsDoNot() {
    born();
    assertThat(send("NDEATH", "", Payload.newBuilder().addMetrics(metric().setName("bdSeq").setLongValue(3))))
        .containsExactly("STALE_DEATH");
    assertThat(send("DDEATH", "drive", payload(2))).containsExactly("DEATH", "lift_run=unknown@9",
        "lift_speed=unknown@9");
    assertThat(send("DDATA", "drive", payload(3, metric().setAlias(2).setBooleanValue(true))))
        .containsExactly("BEFORE_BIRTH");
    assertThat(send("NDEATH", "", Payload.newBuilder().addMetrics(metric().setName("bdSeq").setLongValue(4))))
        .containsExactly("DEATH", "near_flag=unknown", "lift_run=unknown", "lift_speed=unknown");
    assertThat(send("NDATA", "", payload(4, metric().setAlias(1).setBooleanValue(true))))
        .containsExactly("BEFORE_BIRTH");
  }

  @Test
  void historicalStaleAndNullValuesDoNotPassForPresentOnes() {
    born();
    assertThat(send("NDATA", "", payload(2, metric().setAlias(1).setIsHistorical(true).setBooleanValue(false))))
        .containsExactly("HISTORICAL");
    PropertySet stale = PropertySet.newBuilder().addKeys("Quality")
        .addValues(PropertyValue.newBuilder().setType(DataType.Int32.getNumber()).setIntValue(500)).build();
    assertThat(send("NDATA", "", payload(3, metric().setAlias(1).setBooleanValue(false).setProperties(stale))))
        .containsExactly("NOT_GOOD", "near_flag=unknown@5");
    assertThat(send("NDATA", "", payload(4, metric().setAlias(1).setIsNull(true))))
        .containsExactly("NOT_GOOD", "near_flag=unknown@5");
    assertThat(send("NDATA", "", payload(5, metric().setAlias(99).setBooleanValue(true))))
        .containsExactly("BEFORE_BIRTH");
  }

  @Test
  void rubbishAndForeignNodesAreTold() {
    assertThat(reader.read("spBv1.0/park/NDATA/other", new byte[0], taker)).isFalse();
    assertThat(reader.read("spBv1.0/park/NDATA/plc", new byte[] {1, 2, 3, (byte) 0xff}, taker)).isTrue();
    assertThat(told).contains("MALFORMED");
    assertThat(send("NDATA", "", payload(1, metric().setAlias(1).setBooleanValue(true))))
        .containsExactly("BEFORE_BIRTH");
  }
}
