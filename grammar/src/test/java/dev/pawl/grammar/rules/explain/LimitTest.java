package dev.pawl.grammar.rules.explain;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which way of each number and time makes a rule ask for less: {@code +} greater, {@code -} less, {@code ?} unsure. */
class LimitTest {

  private static final String RIDE = """
      input p, q, c : bool
      input v, w : mph
      zone lift enter rises(p) leave falls(q)
      """;

  private static String limits(String duty) {
    RuleBook book = RuleLanguage.compile(List.of(new Source("a.rules", RIDE + "rule R-1 \"t\" basis practice " + duty)),
        SourceLoader.none()).book().orElseThrow();
    return Limit.of(book.rules().get(0), book).stream().map(limit -> limit.text() + switch (limit.looser()) {
      case GREATER -> " +";
      case LESS -> " -";
      case UNKNOWN -> " ?";
    }).collect(Collectors.joining(", "));
  }

  @ParameterizedTest
  @CsvSource(delimiter = ';', quoteCharacter = '\0', value = {
      "when p must q within 500 ms; 0 s ?, 500 ms +",
      "when p must q after 1 s within 2 s, and stay so for 3 s; 1 s ?, 2 s +, 3 s -",
      "when p must q throughout 2 s; 0 s ?, 2 s -",
      "when p for 20 s must q; 20 s +",
      "when v > 3 mph must q; 3 mph +",
      "when v < 3 mph must q; 3 mph -",
      "when p while v > 3 mph must q; 3 mph +",
      "when p unless v > 3 mph must q; 3 mph -",
      "when p must q before v > 3 mph; 3 mph +",
      "when p must v <= 3 mph; 3 mph +",
      "when p must 3 mph >= v; 3 mph +",
      "when p must v >= 3 mph; 3 mph -",
      "when p must not (v >= 3 mph); 3 mph +",
      "never v > 3 mph; 3 mph +",
      "always v <= 3 mph or w >= 5 mph; 3 mph +, 5 mph -",
      "always v <= w + 2 mph; 0.89408 +",
      "always v <= w - 2 mph; 0.89408 -",
      "always max(v) over 5 s <= 3 mph; 5 s -, 3 mph +",
      "when p must q for 3 s; 3 s -",
      "when p must q in last 3 s; 3 s +",
      "when p must trains(lift) < 2; 2 +",
      "when falls(v > 3 mph) must q; 3 mph ?"})
  void knowsWhichWayAsksForLess(String duty, String limits) {
    assertThat(limits(duty)).isEqualTo(limits);
  }

  @Test
  void theShapeOfAFormulaIsWithoutItsNumbersButWithItsNames() {
    assertThat(Limit.shape("□ (↑brake_2 → ◇[0, 500 ms] (v1 <= 2.5 m/s))"))
        .isEqualTo(Limit.shape("□ (↑brake_2 → ◇[0, 5 s] (v1 <= 3 m/s))"))
        .isNotEqualTo(Limit.shape("□ (↑brake_3 → ◇[0, 5 s] (v1 <= 3 m/s))"));
  }
}
