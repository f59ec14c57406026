package dev.pawl.grammar.rules.units;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.model.ValueType;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/**
 * Every unit, and every pair of units of one dimension, against decimal arithmetic of its own. The definitions are
 * those of the SI Brochure, 9th edition (prefixes, minute, hour, day, litre, tonne, bar, degree Celsius) and of NIST
 * Special Publication 811, appendix B (inch, pound, standard gravity, degree Fahrenheit, and what follows from them),
 * both from memory.
 */
class ConversionTest {

  private static final BigDecimal PI = new BigDecimal(
      "3.1415926535897932384626433832795028841971693993751058209749445923078164062862089986280348253421170679");

  /** {@code (x * above + shift) / below} SI base units. */
  private record Definition(BigDecimal above, BigDecimal below, BigDecimal shift) {

    Definition per(Definition other) {
      return new Definition(above.multiply(other.below), below.multiply(other.above), BigDecimal.ZERO);
    }

    Definition power(int exponent) {
      return new Definition(above.pow(exponent), below.pow(exponent), BigDecimal.ZERO);
    }

    BigDecimal above(BigDecimal value) {
      return value.multiply(above).add(shift);
    }
  }

  private static final Map<String, Definition> DEFINITIONS = new TreeMap<>();

  private static void define(String unit, String above, String below) {
    DEFINITIONS.put(unit, new Definition(product(above), product(below), BigDecimal.ZERO));
  }

  private static BigDecimal product(String factors) {
    BigDecimal product = BigDecimal.ONE;
    for (String factor : factors.split(" ")) {
      product = product.multiply(factor.equals("pi") ? PI : new BigDecimal(factor));
    }
    return product;
  }

  static {
    for (String base : List.of("m", "kg", "s", "A", "K", "rad", "N", "Nm", "Pa", "W", "J", "V", "Hz")) {
      define(base, "1", "1");
    }
    for (String kilo : List.of("km", "t", "kN", "kPa", "kW", "kJ", "kA", "kV", "kHz")) {
      define(kilo, "1000", "1");
    }
    for (String milli : List.of("mm", "ms", "mA", "mV", "l")) {
      define(milli, "1", "1000");
    }
    define("MPa", "1000000", "1");
    define("MW", "1000000", "1");
    define("cm", "1", "100");
    define("us", "1", "1e6");
    define("ns", "1", "1e9");
    define("min", "60", "1");
    define("h", "3600", "1");
    define("d", "86400", "1");
    define("bar", "100000", "1");
    define("mbar", "100", "1");
    define("kWh", "1000 3600", "1");
    define("%", "1", "100");
    define("in", "0.0254", "1");
    define("ft", "0.0254 12", "1");
    define("yd", "0.0254 36", "1");
    define("mi", "0.0254 12 5280", "1");
    define("mph", "0.0254 12 5280", "3600");
    define("lb", "0.45359237", "1");
    define("lbf", "0.45359237 9.80665", "1");
    define("psi", "0.45359237 9.80665", "0.0254 0.0254");
    define("hp", "0.45359237 9.80665 0.0254 12 550", "1");
    define("deg", "pi", "180");
    define("rev", "2 pi", "1");
    define("rpm", "2 pi", "60");
    DEFINITIONS.put("degC", new Definition(BigDecimal.ONE, BigDecimal.ONE, new BigDecimal("273.15")));
    DEFINITIONS.put("degF", new Definition(new BigDecimal(5), new BigDecimal(9), new BigDecimal("459.67")
        .multiply(new BigDecimal(5))));
  }

  /** Units made of others, on top of every symbol. */
  private static final List<String> COMPOSED = List.of("m/s", "km/h", "ft/s", "in/min", "mm/s", "yd/d", "m/s2", "ft/s2",
      "km/h2", "mph/s", "deg/s", "rev/s", "rev/min", "rad/s", "rad/ms", "deg2", "rev2", "rad2", "rad/rev", "deg/rad",
      "m/km", "l/min", "m3/h", "ft3/s", "in3/us", "lb/ft3", "kg/m3", "t/l", "K/min", "K/s", "m2", "in2", "kg/m/s2",
      "rad/rev2", "rad/deg/rad");

  private static Definition definition(String unit) {
    Definition whole = null;
    for (String part : unit.split("/")) {
      int last = part.length() - 1;
      boolean power = Character.isDigit(part.charAt(last));
      Definition factor = power ? DEFINITIONS.get(part.substring(0, last)).power(part.charAt(last) - '0')
          : DEFINITIONS.get(part);
      whole = whole == null ? factor : whole.per(factor);
    }
    return whole;
  }

  private static List<String> units() {
    List<String> units = new ArrayList<>(DEFINITIONS.keySet());
    units.addAll(COMPOSED);
    return units;
  }

  /** Mostly what people write, and now and then anything. */
  private static BigDecimal number(Random random) {
    long digits = random.nextInt(4) > 0 ? random.nextInt(100_000) : random.nextLong();
    return BigDecimal.valueOf(random.nextInt(5) == 0 ? -digits : digits,
        random.nextInt(random.nextInt(4) > 0 ? 5 : 25));
  }

  private static double si(ValueType.Quantity unit, BigDecimal number) {
    return unit.scale().convert(number.toString());
  }

  @Test
  void everySymbolIsDefinedHere() {
    assertThat(Set.copyOf(QuantityUnits.symbols())).isEqualTo(DEFINITIONS.keySet());
  }

  /** No neighbour of the double is nearer to the exact number. */
  @Test
  void aNumberInAnyUnitIsTheNearestDouble() {
    Random random = new Random(1);
    for (String text : units()) {
      ValueType.Quantity unit = UnitTable.find(text).orElseThrow();
      Definition definition = definition(text);
      for (int i = 0; i < 2_000; i++) {
        BigDecimal number = number(random);
        double found = si(unit, number);
        BigDecimal distance = distance(definition, number, found);
        assertThat(distance).as("%s %s = %s", number, text, found)
            .isLessThanOrEqualTo(distance(definition, number, Math.nextUp(found)))
            .isLessThanOrEqualTo(distance(definition, number, Math.nextDown(found)));
      }
    }
  }

  private static BigDecimal distance(Definition definition, BigDecimal number, double si) {
    return definition.above(number).subtract(new BigDecimal(si).multiply(definition.below)).abs();
  }

  /** Two numbers in any two units compare as they do exactly: equal ones are equal, and none turn round. */
  @Test
  void numbersInAnyTwoUnitsOfOneDimensionCompareAsTheyDoExactly() {
    Random random = new Random(2);
    int equal = 0;
    for (String left : units()) {
      for (String right : units()) {
        ValueType.Quantity a = UnitTable.find(left).orElseThrow();
        ValueType.Quantity b = UnitTable.find(right).orElseThrow();
        for (int i = 0; i < 40 && a.dimension().equals(b.dimension()); i++) {
          Definition x = definition(left);
          Definition y = definition(right);
          BigDecimal number = number(random);
          BigDecimal other = x.above(number).multiply(y.below).divide(x.below, 120, RoundingMode.HALF_EVEN)
              .subtract(y.shift).divide(y.above, 40, RoundingMode.HALF_EVEN).stripTrailingZeros();
          int exactly = x.above(number).multiply(y.below).compareTo(y.above(other).multiply(x.below));
          int found = Double.compare(si(a, number), si(b, other));
          assertThat(found == 0 || found == exactly).as("%s %s and %s %s", number, left, other, right).isTrue();
          if (exactly == 0) {
            equal++;
            assertThat(found).as("%s %s and %s %s", number, left, other, right).isZero();
          }
        }
      }
    }
    assertThat(equal).isGreaterThan(10_000);
  }
}
