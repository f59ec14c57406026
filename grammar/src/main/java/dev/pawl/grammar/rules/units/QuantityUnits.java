package dev.pawl.grammar.rules.units;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.Exact;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.ValueType;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import javax.measure.Quantity;
import javax.measure.Unit;
import javax.measure.UnitConverter;
import javax.measure.quantity.Angle;
import javax.measure.quantity.Dimensionless;
import javax.measure.quantity.ElectricCurrent;
import javax.measure.quantity.Length;
import javax.measure.quantity.Mass;
import javax.measure.quantity.Temperature;
import javax.measure.quantity.Time;
import tech.units.indriya.function.RationalNumber;
import tech.units.indriya.unit.BaseUnit;
import tech.units.indriya.unit.UnitDimension;

/** The symbols of the language as JSR 385 units, and the way from a composed unit to its exact scale. */
final class QuantityUnits {

  /**
   * The base units. They are made here, not taken from Indriya's own table, whose loading takes a tenth of a second for
   * units and formats that nobody uses here; the conversions between them are Indriya's all the same.
   */
  private static final Unit<Length> METRE = new BaseUnit<>("m", "metre", UnitDimension.LENGTH);
  private static final Unit<Mass> KILOGRAM = new BaseUnit<>("kg", "kilogram", UnitDimension.MASS);
  private static final Unit<Time> SECOND = new BaseUnit<>("s", "second", UnitDimension.TIME);
  private static final Unit<ElectricCurrent> AMPERE = new BaseUnit<>("A", "ampere", UnitDimension.ELECTRIC_CURRENT);
  private static final Unit<Temperature> KELVIN = new BaseUnit<>("K", "kelvin", UnitDimension.TEMPERATURE);

  /** Angle is a base quantity of this language; its letter is none that Indriya uses. */
  private static final Unit<Angle> RADIAN = new BaseUnit<>("rad", "radian", UnitDimension.parse('A'));

  /**
   * Pi as a unit of its own, so that all factors are fractions: its exponent in a composed unit is the power of pi in
   * the factor.
   */
  private static final Unit<Dimensionless> PI = new BaseUnit<>("pi", "pi", UnitDimension.parse('P'));

  private static final Unit<?> NEWTON = KILOGRAM.multiply(METRE).divide(SECOND.pow(2));
  private static final Unit<?> PASCAL = NEWTON.divide(METRE.pow(2));
  private static final Unit<?> JOULE = NEWTON.multiply(METRE);
  private static final Unit<?> WATT = JOULE.divide(SECOND);
  private static final Unit<?> VOLT = WATT.divide(AMPERE);
  private static final Unit<?> ONE = METRE.divide(METRE);

  /**
   * International foot, avoirdupois pound and standard gravity: exact by definition (NIST SP 811, appendix B, from
   * memory).
   */
  private static final Unit<Length> FOOT = METRE.multiply(exact("0.3048"));
  private static final Unit<Mass> POUND = KILOGRAM.multiply(exact("0.45359237"));
  private static final Unit<?> POUND_FORCE = NEWTON.multiply(exact("0.45359237")).multiply(exact("9.80665"));

  /** Units that count from a zero of their own; they have no powers, and nothing can be divided by them. */
  private static final Set<String> WITH_OWN_ZERO = Set.of("degC", "degF");

  private static final Map<String, Unit<?>> SYMBOLS = symbolTable();

  private QuantityUnits() {}

  private static Map<String, Unit<?>> symbolTable() {
    Map<String, Unit<?>> table = new HashMap<>();
    addMechanics(table);
    addElectrics(table);
    addAngles(table);
    addTimes(table);
    table.put("K", KELVIN);
    table.put("degC", KELVIN.shift(exact("273.15")));
    table.put("degF", KELVIN.multiply(5).divide(9).shift(exact("459.67")));
    table.put("%", ONE.divide(100));
    return table;
  }

  private static void addMechanics(Map<String, Unit<?>> table) {
    table.put("m", METRE);
    table.put("km", METRE.multiply(1000));
    table.put("cm", METRE.divide(100));
    table.put("mm", METRE.divide(1000));
    table.put("ft", FOOT);
    table.put("in", FOOT.divide(12));
    table.put("yd", FOOT.multiply(3));
    table.put("mi", FOOT.multiply(5280));
    table.put("mph", FOOT.multiply(5280).divide(SECOND.multiply(3600)));
    table.put("kg", KILOGRAM);
    table.put("t", KILOGRAM.multiply(1000));
    table.put("lb", POUND);
    table.put("N", NEWTON);
    table.put("kN", NEWTON.multiply(1000));
    table.put("lbf", POUND_FORCE);
    table.put("Nm", JOULE);
    table.put("Pa", PASCAL);
    table.put("kPa", PASCAL.multiply(1000));
    table.put("MPa", PASCAL.multiply(1_000_000));
    table.put("bar", PASCAL.multiply(100_000));
    table.put("mbar", PASCAL.multiply(100));
    table.put("psi", POUND_FORCE.divide(FOOT.divide(12).pow(2)));
    table.put("l", METRE.pow(3).divide(1000));
  }

  private static void addElectrics(Map<String, Unit<?>> table) {
    table.put("W", WATT);
    table.put("kW", WATT.multiply(1000));
    table.put("MW", WATT.multiply(1_000_000));
    table.put("hp", POUND_FORCE.multiply(550).multiply(FOOT).divide(SECOND));
    table.put("J", JOULE);
    table.put("kJ", JOULE.multiply(1000));
    table.put("kWh", JOULE.multiply(3_600_000));
    table.put("A", AMPERE);
    table.put("mA", AMPERE.divide(1000));
    table.put("kA", AMPERE.multiply(1000));
    table.put("V", VOLT);
    table.put("mV", VOLT.divide(1000));
    table.put("kV", VOLT.multiply(1000));
    table.put("Hz", ONE.divide(SECOND));
    table.put("kHz", ONE.divide(SECOND).multiply(1000));
  }

  private static void addAngles(Map<String, Unit<?>> table) {
    table.put("rad", RADIAN);
    table.put("deg", RADIAN.multiply(PI).divide(180));
    table.put("rev", RADIAN.multiply(PI).multiply(2));
    table.put("rpm", RADIAN.multiply(PI).multiply(2).divide(SECOND.multiply(60)));
  }

  private static void addTimes(Map<String, Unit<?>> table) {
    table.put("ns", SECOND.divide(1_000_000_000));
    table.put("us", SECOND.divide(1_000_000));
    table.put("ms", SECOND.divide(1000));
    table.put("s", SECOND);
    table.put("min", SECOND.multiply(60));
    table.put("h", SECOND.multiply(3600));
    table.put("d", SECOND.multiply(86400));
  }

  private static RationalNumber exact(String decimal) {
    BigDecimal value = new BigDecimal(decimal);
    return RationalNumber.of(value.unscaledValue(), BigInteger.TEN.pow(value.scale()));
  }

  static Collection<String> symbols() {
    return SYMBOLS.keySet();
  }

  /** Whether a text composes a unit out of one that counts from a zero of its own. */
  static boolean composesOwnZero(String text) {
    return !WITH_OWN_ZERO.contains(text)
        && Stream.of(text.split("/", -1)).anyMatch(part -> WITH_OWN_ZERO.contains(part.replaceAll("\\d$", "")));
  }

  /** The unit of symbols joined by {@code /}, each with at most one digit as its exponent. */
  static Optional<ValueType.Quantity> resolve(String text) {
    if (composesOwnZero(text)) {
      return Optional.empty();
    }
    String[] parts = text.split("/", -1);
    Unit<?> product = null;
    for (String part : parts) {
      Unit<?> factor = power(part);
      if (factor == null) {
        return Optional.empty();
      }
      product = product == null ? factor : product.divide(factor);
    }
    return product == null ? Optional.empty() : Optional.of(quantity(text, product));
  }

  private static Unit<?> power(String part) {
    Unit<?> whole = SYMBOLS.get(part);
    if (whole != null || part.isEmpty()) {
      return whole;
    }
    int last = part.length() - 1;
    int exponent = Character.digit(part.charAt(last), 10);
    Unit<?> base = SYMBOLS.get(part.substring(0, last));
    return base == null || exponent < 2 ? null : base.pow(exponent);
  }

  private static ValueType.Quantity quantity(String text, Unit<?> unit) {
    UnitConverter converter = converter(unit);
    Exact offset = exact(converter.convert((Number) 0));
    Exact factor = exact(converter.convert((Number) 1)).minus(offset);
    Map<? extends javax.measure.Dimension, Integer> exponents = exponents(unit);
    int pi = exponent(exponents, PI.getDimension());
    for (int i = 0; i < Math.abs(pi); i++) {
      factor = pi > 0 ? factor.times(Exact.PI) : factor.per(Exact.PI);
    }
    return new ValueType.Quantity(text, dimension(exponents), new Scale(factor, offset));
  }

  private static Exact exact(Number number) {
    if (number instanceof RationalNumber rational) {
      return Exact.of(new BigDecimal(rational.getDividend())).per(Exact.of(new BigDecimal(rational.getDivisor())));
    }
    return Exact.of(new BigDecimal(number.toString()));
  }

  private static <Q extends Quantity<Q>> UnitConverter converter(Unit<Q> unit) {
    return unit.getConverterTo(unit.getSystemUnit());
  }

  private static Map<? extends javax.measure.Dimension, Integer> exponents(Unit<?> unit) {
    Map<? extends javax.measure.Dimension, Integer> exponents = unit.getDimension().getBaseDimensions();
    if (exponents == null) {
      exponents = unit.getDimension().equals(UnitDimension.NONE) ? Map.of() : Map.of(unit.getDimension(), 1);
    }
    return exponents;
  }

  private static Dimension dimension(Map<? extends javax.measure.Dimension, Integer> exponents) {
    return new Dimension(exponent(exponents, UnitDimension.LENGTH), exponent(exponents, UnitDimension.MASS),
        exponent(exponents, UnitDimension.TIME), exponent(exponents, UnitDimension.ELECTRIC_CURRENT),
        exponent(exponents, UnitDimension.TEMPERATURE), exponent(exponents, RADIAN.getDimension()));
  }

  private static int exponent(Map<? extends javax.measure.Dimension, Integer> exponents, javax.measure.Dimension base) {
    return exponents.entrySet().stream().filter(e -> e.getKey().equals(base)).mapToInt(Map.Entry::getValue).sum();
  }
}
