package dev.pawl.grammar.rules.model;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * The way from numbers in one unit to numbers in another: {@code value * factor + offset}. This is the one rule by
 * which all numbers are converted, in rules, traces, messages and programs: the exact factor and offset, applied to the
 * exact decimal number, and then the nearest double. 700 mm/s and 0.7 m/s are thus one number, and so are 68 degF and
 * 20 degC. A double, which a program has instead of a decimal number, stands for the shortest decimal number that it is
 * nearest to.
 *
 * <p>Where two doubles in place of one are enough to be sure of the nearest, as they nearly always are, nothing is
 * allocated.
 */
public final class Scale {

  public static final Scale SAME = new Scale(Exact.ONE, Exact.ZERO);

  /** A whole number of so many digits is exact in a long, and one up to {@link #SHORT} in a double. */
  private static final long MOST_DIGITS = 1_000_000_000_000_000_000L;
  private static final long SHORT = 1_000_000_000_000_000L;
  private static final int MOST_PLACES = 22;
  private static final int FEW_PLACES = 15;
  private static final int DOUBLE_DIGITS = 17;

  /**
   * A longer text stands for the double nearest to it, and a number of more places before or behind the point for
   * infinity or zero.
   */
  private static final int LONGEST = 1000;
  private static final int FARTHEST = 5000;

  /** More than the rounding errors of a product and a sum of doubles in pairs, relative to their parts. */
  private static final double SLACK = 0x1p-98;

  /** Below it, errors are not relative any more. */
  private static final double LEAST = 1e-200;

  private static final double[] POWERS = new double[FEW_PLACES + 1];

  static {
    for (int i = 0; i <= FEW_PLACES; i++) {
      POWERS[i] = Double.parseDouble("1e" + i);
    }
  }

  private final Exact factor;
  private final Exact offset;
  private final boolean same;
  private final double nearFactor;
  private final double nearOffset;
  private final Pair start;

  /** What one unit in each decimal place is, as far as it was needed. */
  private final Pair[] places = new Pair[MOST_PLACES + 1];

  /** A number as the sum of two doubles, the second as small as can be. */
  private record Pair(double high, double low) {
    static Pair of(Exact exact) {
      double high = exact.nearest();
      return new Pair(high, Double.isFinite(high) ? exact.minus(Exact.of(new BigDecimal(high))).nearest() : 0);
    }
  }

  /**
   * The scale with a factor that is not zero.
   *
   * @param factor how many of the other unit one is
   * @param offset what zero is in the other unit
   */
  public Scale(Exact factor, Exact offset) {
    this.factor = factor;
    this.offset = offset;
    same = factor.equals(Exact.ONE) && offset.isZero();
    nearFactor = factor.nearest();
    start = Pair.of(offset);
    nearOffset = start.high;
  }

  /** Whether numbers stay what they are. */
  public boolean isSame() {
    return same;
  }

  /** The double nearest to the factor, for what is only shown. */
  public double factor() {
    return nearFactor;
  }

  /** The double nearest to the offset, for what is only shown. */
  public double offset() {
    return nearOffset;
  }

  /** The scale without its offset, for differences. */
  public Scale ofDifferences() {
    return new Scale(factor, Exact.ZERO);
  }

  /** This scale, then another. */
  public Scale then(Scale next) {
    return new Scale(factor.times(next.factor), offset.times(next.factor).plus(next.offset));
  }

  /** The way back. */
  public Scale back() {
    return new Scale(Exact.ONE.per(factor), Exact.ZERO.minus(offset).per(factor));
  }

  /** The decimal number that a text spells, converted; infinite beyond all doubles. */
  public double convert(String decimal) {
    double near = Double.parseDouble(decimal);
    if (same) {
      return near + 0.0;
    }
    if (decimal.length() > LONGEST) {
      return convert(near);
    }
    try {
      return convert(new BigDecimal(decimal));
    } catch (NumberFormatException exponentBeyondInt) {
      return convert(near);
    }
  }

  private double convert(BigDecimal value) {
    long magnitude = (long) value.precision() - value.scale();
    if (value.signum() != 0 && magnitude > FARTHEST) {
      return value.signum() * nearFactor * Double.POSITIVE_INFINITY;
    }
    boolean none = value.signum() == 0 || magnitude < -FARTHEST;
    return (none ? offset : Exact.of(value).times(factor).plus(offset)).nearest();
  }

  /** The shortest decimal number that a double is nearest to, converted; of what is not finite, itself. */
  public double convert(double value) {
    if (same || !Double.isFinite(value)) {
      return value;
    }
    for (int place = 0; place <= FEW_PLACES; place++) {
      double power = POWERS[place];
      double digits = Math.rint(value * power);
      if (Math.abs(digits) >= SHORT) {
        break;
      }
      if (digits / power == value) {
        return convert((long) digits, place);
      }
    }
    return convert(shortest(value));
  }

  /** {@code digits / 10^places}, converted. */
  public double convert(long digits, int places) {
    if (places <= MOST_PLACES && Math.abs(digits) < MOST_DIGITS) {
      double near = quick(digits, places);
      if (!Double.isNaN(near)) {
        return near;
      }
    }
    return convert(BigDecimal.valueOf(digits, places));
  }

  /** The number converted, or NaN where two doubles are not enough to tell. */
  private double quick(long digits, int place) {
    Pair unit = places[place];
    if (unit == null) {
      unit = Pair.of(factor.per(Exact.of(BigDecimal.ONE.scaleByPowerOfTen(place))));
      places[place] = unit;
    }
    double high = (double) digits;
    double low = (double) (digits - (long) high);
    double product = high * unit.high;
    double rest = Math.fma(high, unit.high, -product) + (high * unit.low + low * unit.high);
    double sum = product + start.high;
    double part = sum - product;
    double lost = (product - (sum - part)) + (start.high - part);
    double small = lost + rest + start.low;
    double slack = SLACK * (Math.abs(product) + Math.abs(start.high));
    double near = sum + (small - slack);
    boolean sure = near == sum + (small + slack) && (Math.abs(near) > LEAST || digits == 0);
    return sure ? near + 0.0 : Double.NaN;
  }

  /**
   * The shortest decimal number whose conversion is the given finite double; where none has it, the nearest way back.
   */
  public BigDecimal origin(double converted) {
    int place = same ? -1 : placesOfOrigin(converted);
    return place < 0 ? longOrigin(converted) : BigDecimal.valueOf((long) digitsOfOrigin(converted, place), place);
  }

  /** The double nearest to the {@link #origin}; of what is not finite, itself. */
  public double originNumber(double converted) {
    if (same || !Double.isFinite(converted)) {
      return converted;
    }
    int place = placesOfOrigin(converted);
    return place < 0 ? longOrigin(converted).doubleValue() : digitsOfOrigin(converted, place) / POWERS[place] + 0.0;
  }

  private double digitsOfOrigin(double converted, int place) {
    return Math.rint((converted - nearOffset) / nearFactor * POWERS[place]);
  }

  private int placesOfOrigin(double converted) {
    for (int place = 0; place <= FEW_PLACES; place++) {
      double digits = digitsOfOrigin(converted, place);
      if (Math.abs(digits) >= SHORT) {
        return -1;
      }
      if (convert((long) digits, place) == converted) {
        return place;
      }
    }
    return -1;
  }

  private BigDecimal longOrigin(double converted) {
    if (same) {
      return shortest(converted);
    }
    Pair pair = Pair.of(Exact.of(new BigDecimal(converted)).minus(offset).per(factor));
    BigDecimal near = new BigDecimal(pair.high).add(new BigDecimal(pair.low));
    for (int digits = 1; digits <= 2 * DOUBLE_DIGITS; digits++) {
      BigDecimal candidate = near.round(new MathContext(digits, RoundingMode.HALF_EVEN));
      if (convert(candidate) == converted) {
        return candidate;
      }
    }
    return near.round(new MathContext(DOUBLE_DIGITS, RoundingMode.HALF_EVEN));
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Scale scale && factor.equals(scale.factor) && offset.equals(scale.offset);
  }

  @Override
  public int hashCode() {
    return factor.hashCode() * 31 + offset.hashCode();
  }

  /**
   * The shortest decimal number that a finite double is nearest to, and of equally short ones the nearest to the
   * double.
   */
  public static BigDecimal shortest(double value) {
    BigDecimal exact = new BigDecimal(value);
    for (int digits = FEW_PLACES; digits < DOUBLE_DIGITS; digits++) {
      BigDecimal candidate = exact.round(new MathContext(digits, RoundingMode.HALF_EVEN));
      if (candidate.doubleValue() == value) {
        return candidate.stripTrailingZeros();
      }
    }
    return exact.round(new MathContext(DOUBLE_DIGITS, RoundingMode.HALF_EVEN)).stripTrailingZeros();
  }
}
