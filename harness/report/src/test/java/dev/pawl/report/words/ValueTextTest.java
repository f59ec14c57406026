package dev.pawl.report.words;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.List;
import org.junit.jupiter.api.Test;

class ValueTextTest {

  @Test
  void valuesComeBackInTheWrittenUnit() {
    ValueType mph = new ValueType.Quantity("mph", Dimension.SPEED, 0.44704, 0);
    ValueType celsius = new ValueType.Quantity("degC", new Dimension(0, 0, 0, 0, 1, 0), 1, 273.15);
    assertThat(ValueText.of(mph, Double.doubleToRawLongBits(6 * 0.44704))).isEqualTo("6 mph");
    assertThat(ValueText.of(celsius, Double.doubleToRawLongBits(293.15))).isEqualTo("20 degC");
    assertThat(ValueText.of(new ValueType.Quantity("", Dimension.NONE, 1, 0), Double.doubleToRawLongBits(0.1
        + 0.2))).isEqualTo("0.3");
    assertThat(ValueText.of(new ValueType.Enumeration("", List.of("OFF", "AUTO")), 1)).isEqualTo("AUTO");
    assertThat(ValueText.of(new ValueType.Bool(), 0)).isEqualTo("false");
    assertThat(ValueText.of(mph, EventSink.UNKNOWN)).isEqualTo("unknown");
  }

  @Test
  void countsAreSetInThousands() {
    assertThat(ValueText.count(0)).isEqualTo("0");
    assertThat(ValueText.count(999)).isEqualTo("999");
    assertThat(ValueText.count(20_000_000)).isEqualTo("20,000,000");
    assertThat(ValueText.count(-1234)).isEqualTo("-1,234");
    assertThat(ValueText.count(-123)).isEqualTo("-123");
  }
}
