package dev.pawl.grammar.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NearNameTest {

  /** Distances of Damerau and Levenshtein in the restricted form, counted by hand. */
  @ParameterizedTest
  @CsvSource(value = {"abc,abc,0", "abc,'',3", "abc,abd,1", "abc,ab,1", "abc,abxc,1", "abcd,abdc,1",
      "kitten,sitting,3"})
  void distances(String from, String to, int distance) {
    assertThat(NearName.distance(from, to)).isEqualTo(distance);
    assertThat(NearName.distance(to, from)).isEqualTo(distance);
  }

  @Test
  void theNearestNameIsSuggestedWhateverItsCase() {
    assertThat(NearName.hint("Lift_rnu", List.of("lift_reference", "lift_run", "lift")))
        .contains("did you mean lift_run?");
  }

  @Test
  void nothingIsSuggestedWhereNothingIsNear() {
    assertThat(NearName.hint("gate", List.of("lift_run", "horn"))).isEmpty();
    assertThat(NearName.hint("ab", List.of("xy"))).isEmpty();
  }
}
