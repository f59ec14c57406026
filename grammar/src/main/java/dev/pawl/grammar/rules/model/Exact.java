package dev.pawl.grammar.rules.model;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Map;
import java.util.TreeMap;

/**
 * A number without any rounding: a sum of fractions, each times a power of pi. Such are the factors of all units:
 * 0.3048 m, 5/9 K, pi/180 rad. Only {@link #nearest} rounds, and that once.
 *
 * @param terms the fraction before each power of pi, none of them zero
 */
public record Exact(Map<Integer, Fraction> terms) {

  /**
   * A fraction of whole numbers, not reduced.
   *
   * @param below positive
   */
  record Fraction(BigInteger above, BigInteger below) {

    Fraction times(Fraction other) {
      return new Fraction(above.multiply(other.above), below.multiply(other.below));
    }

    Fraction plus(Fraction other) {
      return new Fraction(above.multiply(other.below).add(other.above.multiply(below)), below.multiply(other.below));
    }

    Fraction inverse() {
      return above.signum() < 0 ? new Fraction(below.negate(), above.negate()) : new Fraction(below, above);
    }

    Fraction reduced() {
      BigInteger common = above.gcd(below);
      return new Fraction(above.divide(common), below.divide(common));
    }
  }

  public static final Exact ZERO = new Exact(Map.of());
  public static final Exact ONE = of(1, 1);
  public static final Exact PI = new Exact(Map.of(1, new Fraction(BigInteger.ONE, BigInteger.ONE)));

  /** Places of a double's fraction, and the exponent of the least double. */
  private static final int BITS = 53;
  private static final int LEAST = -1074;

  /** How many bits of pi are tried first; twice as many each time that they do not decide. */
  private static final int PI_BITS = 192;

  public Exact {
    terms = Map.copyOf(terms);
  }

  public static Exact of(long above, long below) {
    return of(new Fraction(BigInteger.valueOf(above), BigInteger.valueOf(below)));
  }

  public static Exact of(BigDecimal decimal) {
    BigInteger digits = decimal.unscaledValue();
    BigInteger power = BigInteger.TEN.pow(Math.abs(decimal.scale()));
    return of(decimal.scale() > 0 ? new Fraction(digits, power) : new Fraction(digits.multiply(power), BigInteger.ONE));
  }

  private static Exact of(Fraction fraction) {
    return fraction.above.signum() == 0 ? new Exact(Map.of()) : new Exact(Map.of(0, fraction.reduced()));
  }

  public Exact plus(Exact other) {
    Map<Integer, Fraction> sum = new TreeMap<>(terms);
    other.terms.forEach((power, fraction) -> sum.merge(power, fraction, (a, b) -> a.plus(b).reduced()));
    sum.values().removeIf(fraction -> fraction.above.signum() == 0);
    return new Exact(sum);
  }

  public Exact minus(Exact other) {
    return plus(other.times(of(-1, 1)));
  }

  public Exact times(Exact other) {
    Exact product = ZERO;
    for (Map.Entry<Integer, Fraction> a : terms.entrySet()) {
      for (Map.Entry<Integer, Fraction> b : other.terms.entrySet()) {
        product = product.plus(new Exact(Map.of(a.getKey() + b.getKey(), a.getValue().times(b.getValue()).reduced())));
      }
    }
    return product;
  }

  /** The quotient by a number of a single term, as all factors of units are. */
  public Exact per(Exact divisor) {
    if (divisor.terms.size() != 1) {
      throw new ArithmeticException("a quotient by " + divisor.terms.size() + " terms");
    }
    Map.Entry<Integer, Fraction> term = divisor.terms.entrySet().iterator().next();
    return times(new Exact(Map.of(-term.getKey(), term.getValue().inverse())));
  }

  public boolean isZero() {
    return terms.isEmpty();
  }

  /** The double nearest to it, of two that are equally near the even one; infinite beyond all doubles. */
  public double nearest() {
    if (terms.isEmpty()) {
      return 0;
    }
    if (terms.size() == 1 && terms.containsKey(0)) {
      return nearest(terms.get(0));
    }
    for (int bits = PI_BITS;; bits *= 2) {
      Pi pi = Pi.within(bits);
      double low = nearest(bound(pi, false));
      if (low == nearest(bound(pi, true))) {
        return low;
      }
    }
  }

  /**
   * What is not above, or not below, the number. A sum with a power of pi in it is never itself half way between two
   * doubles.
   */
  private Fraction bound(Pi pi, boolean above) {
    Fraction sum = new Fraction(BigInteger.ZERO, BigInteger.ONE);
    for (Map.Entry<Integer, Fraction> term : terms.entrySet()) {
      Fraction factor = term.getValue();
      sum = sum.plus(factor.times(pi.power(term.getKey(), above == factor.above.signum() > 0)));
    }
    return sum;
  }

  private static double nearest(Fraction fraction) {
    BigInteger size = fraction.above.abs();
    int shift = Math.min(BITS + 8 + fraction.below.bitLength() - size.bitLength(), 2 - LEAST);
    BigInteger[] quotient = (shift < 0 ? size : size.shiftLeft(shift))
        .divideAndRemainder(shift < 0 ? fraction.below.shiftLeft(-shift) : fraction.below);
    long whole = quotient[0].longValueExact() | (quotient[1].signum() == 0 ? 0 : 1);
    int dropped = Math.max(Long.SIZE - Long.numberOfLeadingZeros(whole) - BITS, shift + LEAST);
    long kept = whole >>> dropped;
    long rest = whole - (kept << dropped);
    long half = 1L << dropped - 1;
    boolean up = rest > half || rest == half && (kept & 1) == 1;
    return fraction.above.signum() * Math.scalb((double) (up ? kept + 1 : kept), dropped - shift);
  }

  /** Two bounds of pi, over a power of two. */
  private record Pi(BigInteger low, BigInteger high, int bits) {

    private static final int GUARD = 32;

    /** By Machin's formula, pi = 16 arctan 1/5 - 4 arctan 1/239 (from memory). */
    static Pi within(int bits) {
      int scale = bits + GUARD;
      BigInteger value = arctanOfOneOver(5, scale).shiftLeft(4).subtract(arctanOfOneOver(239, scale).shiftLeft(2));
      BigInteger slack = BigInteger.ONE.shiftLeft(GUARD / 2);
      return new Pi(value.subtract(slack), value.add(slack), scale);
    }

    private static BigInteger arctanOfOneOver(long x, int scale) {
      BigInteger square = BigInteger.valueOf(x * x);
      BigInteger power = BigInteger.ONE.shiftLeft(scale).divide(BigInteger.valueOf(x));
      BigInteger sum = power;
      for (int n = 3; power.signum() != 0; n += 2) {
        power = power.divide(square);
        BigInteger term = power.divide(BigInteger.valueOf(n));
        sum = n % 4 == 3 ? sum.subtract(term) : sum.add(term);
      }
      return sum;
    }

    Fraction power(int exponent, boolean above) {
      BigInteger root = above == exponent > 0 ? high : low;
      Fraction power = new Fraction(root.pow(Math.abs(exponent)), BigInteger.ONE.shiftLeft(bits * Math.abs(exponent)));
      return exponent < 0 ? power.inverse() : power;
    }
  }
}
