package dev.pawl.grammar.rules.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class UnitTableTest {

  private static ValueType.Quantity unit(String unit) {
    return UnitTable.find(unit).orElseThrow();
  }

  /**
   * Factors of NIST Special Publication 811, appendix B, from memory; those of SI prefixes from the SI brochure, from
   * memory.
   */
  @ParameterizedTest
  @CsvSource({"ft, 0.3048, m", "in, 0.0254, m", "yd, 0.9144, m", "mi, 1609.344, m", "mph, 0.44704, m/s",
      "km/h, 0.2777777777777778, m/s",
      "ft/s, 0.3048, m/s", "ft/s2, 0.3048, m/s2", "lb, 0.45359237, kg", "t, 1000, kg", "lbf, 4.4482216152605, m*kg/s2",
      "psi, 6894.757293168361, kg/(m*s2)", "bar, 100000, kg/(m*s2)", "kPa, 1000, kg/(m*s2)",
          "hp, 745.6998715822702, m2*kg/s3",
      "kW, 1000, m2*kg/s3", "kWh, 3600000, m2*kg/s2", "Nm, 1, m2*kg/s2", "kN, 1000, m*kg/s2", "mA, 0.001, A",
      "V, 1, m2*kg/(s3*A)",
      "Hz, 1, 1/s", "rpm, 0.10471975511965977, rad/s", "deg, 0.017453292519943295, rad", "rev, 6.283185307179586, rad",
      "%, 0.01, ''", "l, 0.001, m3", "l/min, 0.000016666666666666667, m3/s", "min, 60, s", "h, 3600, s", "m2, 1, m2"})
  void agreesWithTheHandbook(String unit, double factor, String siUnit) {
    assertThat(unit(unit).scale().factor()).isCloseTo(factor, within(1e-12 * factor));
    assertThat(unit(unit).scale().offset()).isZero();
    assertThat(sorted(unit(unit).dimension().siUnit())).isEqualTo(sorted(siUnit));
  }

  /** The order of factors in a product does not matter. */
  private static String sorted(String unit) {
    String[] sides = unit.replace("(", "").replace(")", "").split("/", 2);
    String above = String.join("*", Arrays.stream(sides[0].split("\\*")).sorted().toList());
    String below = sides.length < 2 ? "" : String.join("*", Arrays.stream(sides[1].split("\\*")).sorted().toList());
    return above + "/" + below;
  }

  /** Fixed points of the scales: ice, steam (both common knowledge) and where the two scales meet. */
  @ParameterizedTest
  @CsvSource({"degC, 0, 273.15", "degC, 100, 373.15", "degF, 32, 273.15", "degF, 212, 373.15", "degF, -40, 233.15",
      "degC, -40, 233.15"})
  void countsTemperaturesFromAbsoluteZero(String unit, double value, double kelvin) {
    assertThat(unit(unit).toSi(value)).isCloseTo(kelvin, within(1e-9));
    assertThat(unit(unit).dimension()).isEqualTo(new Dimension(0, 0, 0, 0, 1, 0));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "/", "m/", "/s", "m//s", "m1", "m0", "furlong", "m/furlong", "g", "M", "KW",
      "m/s/s/s/s/s/s/s/s", "m/degC", "degC/s", "degF2", "degC2/s", "m/degF3"})
  void knowsNoOthers(String unit) {
    assertThat(UnitTable.find(unit)).isEmpty();
  }

  @Test
  void keepsAnglesApartFromPlainNumbers() {
    assertThat(unit("deg").dimension()).isNotEqualTo(Dimension.NONE);
    assertThat(unit("%").dimension()).isEqualTo(Dimension.NONE);
  }

  /** 1 mph is 0.44704 m/s (NIST SP 811, appendix B, from memory). */
  @Test
  void convertsTheSpeedOfALift() {
    assertThat(unit("mph").toSi(6)).isCloseTo(2.68224, within(1e-12));
  }
}
