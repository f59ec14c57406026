package dev.pawl.demo;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.plant.loop.RideMotion;

/**
 * The values of all signals at one scan, as a controller sees them: 0 or 1, an index of {@link OperatingMode}, or a
 * number
 * in the unit of the trace.
 */
final class ScanImage {

  private final RideMotion motion;
  private final int[] signals = new int[Tag.all().length];
  private final ValueType.Quantity[] units = new ValueType.Quantity[Tag.all().length];

  ScanImage(RideMotion motion, RuleBook book) {
    this.motion = motion;
    for (Tag tag : Tag.all()) {
      Signal signal = book.signals().stream().filter(it -> it.name().equals(tag.label())).findFirst().orElseThrow();
      signals[tag.ordinal()] = signal.index();
      units[tag.ordinal()] = signal.type() instanceof ValueType.Quantity unit ? unit : null;
    }
  }

  boolean on(Tag tag) {
    return motion.value(signals[tag.ordinal()]) != 0;
  }

  double value(Tag tag) {
    double value = motion.value(signals[tag.ordinal()]);
    ValueType.Quantity unit = units[tag.ordinal()];
    return unit == null ? value : unit.toWritten(value);
  }

  void set(Tag tag, boolean on) {
    set(tag, on ? 1 : 0);
  }

  void set(Tag tag, double value) {
    ValueType.Quantity unit = units[tag.ordinal()];
    motion.set(signals[tag.ordinal()], unit == null ? value : unit.toSi(value));
  }

  OperatingMode mode() {
    return OperatingMode.values()[(int) value(Tag.MODE)];
  }
}
