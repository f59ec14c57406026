package dev.pawl.grammar.rules.model;

/**
 * Exponents of the SI base quantities; angle counts as a base quantity here, so that degrees and plain numbers do not
 * mix.
 *
 * @param length exponent of metre
 * @param mass exponent of kilogram
 * @param time exponent of second
 * @param current exponent of ampere
 * @param temperature exponent of kelvin
 * @param angle exponent of radian
 */
public record Dimension(int length, int mass, int time, int current, int temperature, int angle) {

  public static final Dimension NONE = new Dimension(0, 0, 0, 0, 0, 0);
  public static final Dimension LENGTH = new Dimension(1, 0, 0, 0, 0, 0);
  public static final Dimension TIME = new Dimension(0, 0, 1, 0, 0, 0);
  public static final Dimension SPEED = new Dimension(1, 0, -1, 0, 0, 0);

  public Dimension times(Dimension other) {
    return new Dimension(length + other.length, mass + other.mass, time + other.time, current + other.current,
        temperature + other.temperature, angle + other.angle);
  }

  public Dimension per(Dimension other) {
    return new Dimension(length - other.length, mass - other.mass, time - other.time, current - other.current,
        temperature - other.temperature, angle - other.angle);
  }

  /** The coherent SI unit as text, such as {@code m/s}; the empty string for a plain number. */
  public String siUnit() {
    StringBuilder above = new StringBuilder();
    StringBuilder below = new StringBuilder();
    String[] symbols = {"kg", "m", "s", "A", "K", "rad"};
    int[] exponents = {mass, length, time, current, temperature, angle};
    for (int i = 0; i < symbols.length; i++) {
      StringBuilder side = exponents[i] < 0 ? below : above;
      if (exponents[i] != 0) {
        side.append(side.isEmpty() ? "" : "*").append(symbols[i]);
        side.append(Math.abs(exponents[i]) > 1 ? Integer.toString(Math.abs(exponents[i])) : "");
      }
    }
    if (below.isEmpty()) {
      return above.toString();
    }
    return (above.isEmpty() ? "1" : above) + "/" + (below.indexOf("*") < 0 ? below : "(" + below + ")");
  }
}
