package dev.pawl.plant.ride;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.plant.text.Key;

/** Clauses about air and electricity. */
final class AirKeys {

  static final Dimension PRESSURE = new Dimension(-1, 1, -2, 0, 0, 0);
  static final Dimension RATE = new Dimension(-1, 1, -3, 0, 0, 0);
  static final Dimension VOLTAGE = new Dimension(2, 1, -3, -1, 0, 0);

  private AirKeys() {}

  static Key pressure(String words) {
    return Key.quantity(words, PRESSURE, 0, 1e8, "90 psi");
  }

  static Key rate(String words) {
    return Key.quantity(words, RATE, 0, 1e8, "0.6 psi/s");
  }
}
