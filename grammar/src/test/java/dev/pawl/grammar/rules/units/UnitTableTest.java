package dev.pawl.grammar.rules.units;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The units that are known without Indriya, held against Indriya. */
class UnitTableTest {

  static Iterable<String> quick() {
    return UnitTable.COMMON.keySet();
  }

  @ParameterizedTest
  @MethodSource("quick")
  void aUnitKnownByHeartIsWhatIndriyaSays(String unit) {
    assertThat(UnitTable.COMMON.get(unit)).isEqualTo(QuantityUnits.resolve(unit).orElseThrow());
  }
}
