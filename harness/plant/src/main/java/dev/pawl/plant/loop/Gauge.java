package dev.pawl.plant.loop;

import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.plant.ride.Sensor;
import dev.pawl.plant.text.Amount;
import java.util.ArrayDeque;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleSupplier;

/** A sensor that reads a number, with what it does to it: smoothing, noise, rounding and lateness. */
final class Gauge {

  private static final double NEAR = 1e-9;

  private final Sensor.Timing timing;
  private final Sensor.Accuracy accuracy;
  private final DoubleSupplier source;
  private final Random noise;
  private final ValueType.Quantity unit;
  private final ArrayDeque<double[]> late = new ArrayDeque<>();
  private double due;
  private double last;
  private double smooth;
  private double reading = Double.NaN;
  private double told;
  /** In the signal's unit. */
  private final double step;

  /**
   * A sensor at the start.
   *
   * @param source what it reads, in SI base units
   */
  Gauge(Sensor sensor, ValueType.Quantity unit, DoubleSupplier source, Random noise) {
    timing = sensor.timing();
    accuracy = sensor.accuracy();
    this.unit = unit;
    this.source = source;
    this.noise = noise;
    step = of(accuracy.step(), 0) / unit.scale().factor();
  }

  /** What it tells at a time, in SI base units. */
  double at(double time) {
    if (time >= due - NEAR) {
      due = time + timing.every();
      read(time);
    }
    while (!late.isEmpty() && late.peekFirst()[0] <= time + NEAR) {
      told = late.removeFirst()[1];
    }
    return told;
  }

  private void read(double time) {
    double value = Math.min(source.getAsDouble(), of(accuracy.most(), Double.POSITIVE_INFINITY));
    smooth = timing.smoothed() == 0 || Double.isNaN(reading) ? value
        : value + (smooth - value) * Math.exp(-(time - last) / timing.smoothed());
    last = time;
    double spread = of(accuracy.noise(), 0);
    boolean quiet = value == 0 && Math.abs(smooth) < of(accuracy.step(), 0) / 2 + NEAR;
    double shown = quiet ? 0 : spread > 0 && value != 0 ? Math.max(0, smooth + spread * noise.nextGaussian()) : smooth;
    if (Double.isNaN(reading) || quiet && reading != 0 || Math.abs(shown - reading) >= of(accuracy.change(), 0)) {
      double rounded = rounded(shown);
      if (rounded != reading) {
        reading = rounded;
        late.addLast(new double[] {time + timing.delay(), rounded});
      }
    }
  }

  /** Rounded as it is written, so that 97.1 psi is 97.1 psi. */
  private double rounded(double si) {
    if (step == 0) {
      return si;
    }
    double steps = Math.rint((si - unit.scale().offset()) / unit.scale().factor() / step);
    double each = Math.rint(1 / step);
    return unit.toSi(each >= 1 && Math.abs(each * step - 1) < 1e-6 ? steps / each : steps * step);
  }

  private static double of(Optional<Amount> amount, double other) {
    return amount.isPresent() ? amount.get().si() : other;
  }
}
