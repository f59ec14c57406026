package dev.pawl.mqtt.sparkplug;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
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
    if (signal.type() instanceof ValueType.Bool && (text.equals("0") || text.equals("1"))) {
      builder.setDatatype(DataType.Boolean.getNumber()).setBooleanValue(text.equals("1"));
    } else if (signal.type() instanceof ValueType.Quantity) {
      builder.setDatatype(DataType.Double.getNumber()).setDoubleValue(Double.parseDouble(text));
    } else {
      builder.setDatatype(DataType.String.getNumber()).setStringValue(text);
    }
    return Payload.newBuilder().setTimestamp(milliseconds).addMetrics(builder).build().toByteArray();
  }
}
