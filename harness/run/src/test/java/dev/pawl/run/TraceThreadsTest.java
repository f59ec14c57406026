package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** No more threads than may work, none without rules enough, and one that is left over decodes. */
class TraceThreadsTest {

  @ParameterizedTest
  @CsvSource({"1, 300, 1, false", "2, 2, 1, true", "2, 19, 1, true", "2, 20, 2, false", "4, 40, 4, false",
      "8, 40, 4, true"})
  void areUsedWhereTheWorkIs(int jobs, int rules, int judging, boolean ahead) {
    assertThat(TraceThreads.of(jobs, book(rules))).isEqualTo(new TraceThreads(judging, ahead));
  }

  private static RuleBook book(int rules) {
    Rule.Always always = new Rule.Always(new BoolExpr.Constant(true), false, Optional.empty(), Optional.empty());
    return new RuleBook("", 0, List.of(), List.of(), IntStream.range(0, rules)
        .mapToObj(index -> new Rule(index, "R-" + index, "", Rule.Severity.MINOR, Rule.Basis.PRACTICE, always,
            Proof.NONE, 0, "", Position.NOWHERE)).toList());
  }
}
