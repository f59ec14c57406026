package dev.pawl.grammar.rules.model;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.units.Scale;
import dev.pawl.grammar.rules.units.UnitTable;
import java.math.BigDecimal;
import java.math.MathContext;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Conversions against exact decimal arithmetic: a value at a limit is at it, in whatever units the two are written. */
class RoundingTest {

  /** The factors are those of the units' definitions (1 ft = 0.3048 m, 1 mile = 1609.344 m exactly; from memory). */
  @ParameterizedTest
  @CsvSource({"mm/s, 0.001", "cm/s, 0.01", "mph, 0.44704", "ft/s, 0.3048", "in, 0.0254", "%, 0.01", "ms, 0.001", "lb, 0.45359237"})
  void aConvertedNumberIsTheNearestDoubleToTheExactOne(String unit, BigDecimal factor) {
    Scale scale = UnitTable.find(unit).orElseThrow();
    for (int tenths = 1; tenths < 40_000; tenths++) {
      BigDecimal exact = new BigDecimal(tenths).movePointLeft(1).multiply(factor);
      assertThat(scale.toSi(tenths / 10.0)).as("%s %s", tenths / 10.0, unit).isEqualTo(exact.doubleValue());
    }
  }

  /** 3.6 km/h are 1 m/s. */
  @Test
  void kilometresPerHourMeetMetresPerSecond() {
    Scale scale = UnitTable.find("km/h").orElseThrow();
    for (int thousandths = 1; thousandths < 40_000; thousandths++) {
      double logged = new BigDecimal(thousandths).multiply(new BigDecimal("3.6")).movePointLeft(3).doubleValue();
      assertThat(scale.toSi(logged)).isEqualTo(new BigDecimal(thousandths).movePointLeft(3).doubleValue());
    }
  }

  @Test
  void whatIsNotConvertedAndWhatIsNearNoShortDecimalStaysAsItIs() {
    assertThat(Rounding.convert(0.7000000000000001, 1, 0)).isEqualTo(0.7000000000000001);
    double third = new BigDecimal(1).divide(new BigDecimal(3), MathContext.DECIMAL64).doubleValue();
    assertThat(Rounding.settle(third)).isEqualTo(third);
    assertThat(Rounding.settle(Double.NaN)).isNaN();
    assertThat(Rounding.settle(Double.POSITIVE_INFINITY)).isInfinite();
    assertThat(Rounding.settle(1e-7)).isEqualTo(1e-7);
    assertThat(Rounding.settle(-0.7000000000000001)).isEqualTo(-0.7);
  }
}
