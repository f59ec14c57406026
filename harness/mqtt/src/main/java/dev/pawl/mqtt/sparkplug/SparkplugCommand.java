package dev.pawl.mqtt.sparkplug;

import dev.pawl.grammar.rules.model.Signal;
import org.eclipse.tahu.protobuf.SparkplugBProto.DataType;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.Metric;

/** The payload by which a host writes one metric of a node or device (NCMD, DCMD). */
public final class SparkplugCommand {

  private static final long MILLISECOND = 1_000_000L;

  private SparkplugCommand() {}

  /**
   * The payload.
   *
   * @param text the value as its sender writes it
   * @param time nanoseconds since 1970
   */
  public static byte[] payload(Signal signal, String metric, String text, long time) {
    long milliseconds = Math.floorDiv(time, MILLISECOND);
    Metric.Builder builder = Metric.newBuilder().setName(metric).setTimestamp(milliseconds);
    Metric.Builder said = signal.type().match(
        bool -> text.equals("0") || text.equals("1")
            ? builder.setDatatype(DataType.Boolean.getNumber()).setBooleanValue(text.equals("1")) : say(builder, text),
        enumeration -> say(builder, text),
        quantity -> builder.setDatatype(DataType.Double.getNumber()).setDoubleValue(Double.parseDouble(text)));
    return Payload.newBuilder().setTimestamp(milliseconds).addMetrics(said).build().toByteArray();
  }

  private static Metric.Builder say(Metric.Builder builder, String text) {
    return builder.setDatatype(DataType.String.getNumber()).setStringValue(text);
  }
}
