package dev.pawl.trace.intake;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.model.Exact;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Position;
import dev.pawl.trace.bindings.Conversion;
import dev.pawl.trace.output.ValueSpelling;
import java.math.BigDecimal;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Logged numbers come to the engine by the same rule as those of a rule file, whatever way they are spelled. */
class ValueReaderTest {

  private static ValueReader reader(String unit, Conversion conversion) {
    return ValueReader.of(signal(unit), conversion);
  }

  private static Signal signal(String unit) {
    return new Signal(0, "x", Signal.Direction.INPUT, UnitTable.find(unit).orElseThrow(), Position.NOWHERE);
  }

  @Test
  void aLoggedNumberIsTheOneThatARuleFileStates() {
    Random random = new Random(3);
    for (String unit : UnitTable.symbols()) {
      Scale scale = UnitTable.find(unit).orElseThrow().scale();
      ValueReader reader = reader(unit, new Conversion.Plain());
      ValueSpelling texts = new ValueSpelling(List.of(signal(unit)));
      for (int i = 0; i < 500; i++) {
        BigDecimal number = BigDecimal.valueOf(random.nextInt(3) > 0 ? random.nextInt(1_000_000) : random.nextLong(),
            random.nextInt(12));
        for (String text : List.of(number.toPlainString(), number.toString(), number.unscaledValue() + "e"
            + -number.scale())) {
          assertThat(Double.longBitsToDouble(reader.read(text))).as("%s %s", text, unit).isEqualTo(scale.convert(text));
        }
        long whole = number.longValue();
        assertThat(Double.longBitsToDouble(reader.readNumber(whole))).isEqualTo(scale.convert(Long.toString(whole)));
        long value = reader.read(number.toString());
        assertThat(reader.read(texts.of(0, value))).as("%s %s", number, unit).isEqualTo(value);
      }
    }
  }

  /**
   * The binding's numbers and both units (NIST SP 811, appendix B, from memory) are joined before anything is rounded.
   */
  @ParameterizedTest
  @CsvSource({"degC, degF, 140, 333.15", "degF, degC, 60, 333.15", "mph, mm/s, 2682.24, 2.68224",
      "rev, deg, 90, 1.5707963267948966"})
  void aBoundNumberIsRoundedOnce(String declared, String logged, String text, double si) {
    Scale scale = UnitTable.find(logged).orElseThrow().scale()
        .then(UnitTable.find(declared).orElseThrow().scale().back());
    assertThat(Double.longBitsToDouble(reader(declared, new Conversion.Scaled(scale)).read(text))).isEqualTo(si);
  }

  @Test
  void aBoundNumberMayBeScaledAndShifted() {
    Scale tenths = new Scale(Exact.of(1, 10), Exact.of(-40, 1));
    assertThat(Double.longBitsToDouble(reader("degC", new Conversion.Scaled(tenths)).read("600"))).isEqualTo(293.15);
  }
}
