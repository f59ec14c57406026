package dev.pawl.demo;

/**
 * The values of all signals at one scan: 0 or 1, an index of {@link OperatingMode}, or a number in the unit of the
 * trace.
 */
final class ScanImage {

  private final double[] values = new double[Tag.all().length];

  boolean on(Tag tag) {
    return values[tag.ordinal()] != 0;
  }

  double value(Tag tag) {
    return values[tag.ordinal()];
  }

  void set(Tag tag, boolean on) {
    values[tag.ordinal()] = on ? 1 : 0;
  }

  void set(Tag tag, double value) {
    values[tag.ordinal()] = value;
  }

  OperatingMode mode() {
    return OperatingMode.values()[(int) value(Tag.MODE)];
  }
}
