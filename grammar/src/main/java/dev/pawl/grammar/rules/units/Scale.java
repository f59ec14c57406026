package dev.pawl.grammar.rules.units;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.Rounding;

/**
 * What one of a unit is in SI base units: {@code value * factor + offset}.
 *
 * @param dimension what kind of quantity the unit measures
 * @param factor SI base units in one of it
 * @param offset SI value of its zero; not 0 for degC and degF only
 */
public record Scale(Dimension dimension, double factor, double offset) {

  /** What a difference of so many of it is in SI base units. */
  public double differenceToSi(double value) {
    return Rounding.convert(value, factor, 0);
  }

  public double toSi(double value) {
    return Rounding.convert(value, factor, offset);
  }
}
