package dev.pawl.grammar.rules.model;

/**
 * The rounding of converted numbers. 700 mm/s are 0.7 m/s, but 700 times the nearest double to 0.001 is not the nearest double to 0.7, and
 * a limit of 0.7 m/s would be broken by the last bit. Rules, traces and programs all convert by this.
 */
public final class Rounding {

  /** What two roundings can add: the relative distance of two doubles, twice. */
  private static final double SLACK = 4.5e-16;
  private static final double LEAST = 1e-6;

  private Rounding() {}

  /** The nearest double to a decimal number of few places, where one is no further off than conversion can have moved it; else the value. */
  public static double settle(double value) {
    double size = Math.abs(value);
    double places = size < 1e3 ? 1e10 : size < 1e5 ? 1e9 : size < 1e7 ? 1e6 : size < 1e9 ? 1e4 : 0;
    if (!(size >= LEAST) || places == 0) {
      return value;
    }
    double settled = Math.rint(value * places) / places;
    return Math.abs(settled - value) <= SLACK * size ? settled : value;
  }

  /** {@code value * factor + offset}, settled; exactly the value where nothing is to be converted. */
  public static double convert(double value, double factor, double offset) {
    return factor == 1 && offset == 0 ? value : settle(value * factor + offset);
  }
}
