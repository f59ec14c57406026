package dev.pawl.grammar.rules.model;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.units.UnitTable;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Conversion at its edges; {@code ConversionTest} holds all units to exact arithmetic. */
class ScaleTest {

  private static Scale scale(String unit) {
    return UnitTable.find(unit).orElseThrow().scale();
  }

  /**
   * Two numbers that are equal are one double, in whatever units they are written. That they are equal follows from the
   * definitions of the units in the SI Brochure (9th edition) and NIST SP 811, from memory.
   */
  @ParameterizedTest
  @CsvSource({"68, degF, 20, degC", "140, degF, 60, degC", "-459.67, degF, 0, K", "-40, degF, -40, degC",
      "3, ns, 0.003, us", "90, rpm, 1.5, rev/s", "90, deg, 0.25, rev", "0.7, kWh, 2520, kJ", "10.8, km/h, 3, m/s",
      "700, mm/s, 0.7, m/s", "1e-310, m, 1e-313, km", "1e300, mm, 1e297, m",
      "12345678901234567890123, mm, 12345678901234567890.123, m"})
  void equalNumbersAreOneDouble(String a, String unitA, String b, String unitB) {
    assertThat(scale(unitA).convert(a)).isEqualTo(scale(unitB).convert(b));
  }

  /** What two doubles cannot decide, exact arithmetic does, and to the same. */
  @ParameterizedTest
  @ValueSource(strings = {"mm", "ft", "degF", "degC", "psi", "rpm", "deg2", "km/h", "Hz", "kWh"})
  void theQuickWayIsTheExactOne(String unit) {
    Random random = new Random(7);
    for (int i = 0; i < 20_000; i++) {
      long digits = random.nextLong() % (long) Math.pow(10, 1 + random.nextInt(17));
      int places = random.nextInt(23);
      String text = new BigDecimal(BigInteger.valueOf(digits), places).toString();
      assertThat(scale(unit).convert(digits, places)).as("%s %s", text, unit).isEqualTo(scale(unit).convert(text));
    }
  }

  /** What was converted leads back to the decimal number it came from, up to fifteen digits. */
  @ParameterizedTest
  @ValueSource(strings = {"mm", "ft", "psi", "rpm", "deg", "km/h", "kWh", "%"})
  void theWayBackIsTheNumberItself(String unit) {
    Random random = new Random(8);
    for (int i = 0; i < 20_000; i++) {
      BigDecimal decimal = BigDecimal.valueOf(random.nextLong() % 1_000_000_000_000_000L, random.nextInt(16));
      double si = scale(unit).convert(decimal.toString());
      assertThat(scale(unit).origin(si)).as("%s %s", decimal, unit).isEqualByComparingTo(decimal);
      assertThat(scale(unit).originNumber(si)).isEqualTo(decimal.doubleValue());
      assertThat(scale(unit).convert(decimal.doubleValue())).isEqualTo(si);
    }
  }

  @Test
  void anyDoubleLeadsBackToItself() {
    Random random = new Random(9);
    for (int i = 0; i < 5_000; i++) {
      double si = Double.longBitsToDouble(random.nextLong());
      if (Double.isFinite(si) && Math.abs(si) < 1e300) {
        assertThat(scale("mm").convert(scale("mm").origin(si).toString())).isEqualTo(si);
        assertThat(Scale.shortest(si).doubleValue()).isEqualTo(si);
      }
    }
  }

  @Test
  void whatNeedsNoConversionStaysAsItIs() {
    assertThat(scale("m").convert(0.7000000000000001)).isEqualTo(0.7000000000000001);
    assertThat(scale("mm").convert(Double.NaN)).isNaN();
    assertThat(scale("mm").convert(Double.POSITIVE_INFINITY)).isInfinite();
    assertThat(scale("mm").originNumber(Double.NaN)).isNaN();
    assertThat(Double.doubleToRawLongBits(scale("mm").convert("-0"))).isZero();
  }

  /** Hostile exponents and lengths cost no more than others. */
  @Test
  void numbersBeyondAllDoublesAreInfiniteOrNothing() {
    assertThat(scale("km").convert("1e308")).isInfinite();
    assertThat(scale("mm").convert("-1e999999999")).isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(scale("mm").convert("1e99999999999")).isInfinite();
    assertThat(scale("degC").convert("1e-999999999")).isEqualTo(273.15);
    assertThat(scale("mm").convert("0e99999999999")).isZero();
    assertThat(scale("mm").convert("7".repeat(1_000_000))).isInfinite();
  }
}
