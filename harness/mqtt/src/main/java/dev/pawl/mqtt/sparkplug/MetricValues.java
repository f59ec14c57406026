package dev.pawl.mqtt.sparkplug;

import org.eclipse.tahu.protobuf.SparkplugBProto.DataType;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.Metric;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.PropertyValue;

/** What a metric says, as text for the value readers, and whether it can be trusted. */
final class MetricValues {

  private static final int GOOD = 192;

  private MetricValues() {}

  /**
   * The value as text; null where it is none that a signal can have.
   *
   * @param type the data type that the metric or its birth states
   */
  static String text(Metric metric, int type) {
    return switch (metric.getValueCase()) {
      case INT_VALUE -> integer(metric.getIntValue(), type);
      case LONG_VALUE -> type == DataType.UInt64.getNumber() || type == DataType.DateTime.getNumber()
          ? Long.toUnsignedString(metric.getLongValue()) : Long.toString(metric.getLongValue());
      case FLOAT_VALUE -> Float.toString(metric.getFloatValue());
      case DOUBLE_VALUE -> Double.toString(metric.getDoubleValue());
      case BOOLEAN_VALUE -> Boolean.toString(metric.getBooleanValue());
      case STRING_VALUE -> metric.getStringValue();
      case BYTES_VALUE, DATASET_VALUE, TEMPLATE_VALUE, EXTENSION_VALUE, VALUE_NOT_SET -> null;
    };
  }

  /** Signed types travel in an unsigned field. */
  private static String integer(int value, int type) {
    DataType known = DataType.forNumber(type);
    if (known == DataType.Int8) {
      return Integer.toString((byte) value);
    }
    if (known == DataType.Int16) {
      return Integer.toString((short) value);
    }
    return known == DataType.Int32 ? Integer.toString(value) : Integer.toUnsignedString(value);
  }

  /** Whether the metric states no quality, or good. */
  static boolean isGood(Metric metric) {
    int at = metric.getProperties().getKeysList().indexOf("Quality");
    if (at < 0 || at >= metric.getProperties().getValuesCount()) {
      return true;
    }
    PropertyValue quality = metric.getProperties().getValues(at);
    return quality.hasIntValue() ? quality.getIntValue() == GOOD : quality.getLongValue() == GOOD;
  }
}
