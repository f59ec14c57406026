package dev.pawl.report.words;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Tried;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.source.Source;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.Seen;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class FindingWordsTest {

  @Test
  void aRuleThatWasMetAndNeverAskedSaysBoth() {
    String rule = "when rises(release) must gates and bars tried by go given bars tried by go given gates";
    assertThat(reason(rule, new Obligations(94, 0, 0, 0, 0, 0, 0), 2, 0))
        .isEqualTo("met 94 times; never tried by go given gates");
    assertThat(reason(rule, new Obligations(0, 0, 0, 0, 0, 0, 0), 0, 0))
        .isEqualTo("never tried by go given bars; never tried by go given gates");
  }

  @Test
  void whatHadToStaySoIsNamedAsThat() {
    String rule = "when falls(gates) must not release within 1 s, and stay so until rises(bars) stay tried by go";
    assertThat(reason(rule, new Obligations(1, 0, 0, 0, 0, 0, 0, 2), 0))
        .isEqualTo("met once; already so 2 times; its stay never tried by go");
  }

  private static String reason(String duty, Obligations obligations, long... tried) {
    Rule rule = RuleLanguage.compile(List.of(new Source("gates.rules",
        "input release, gates, bars, go : bool\nrule R-1 \"Gates\" basis practice " + duty)), SourceLoader.none())
        .book().orElseThrow().rules().get(0);
    List<Tried> trials = Arrays.stream(tried).mapToObj(times -> new Tried(times, OptionalLong.empty())).toList();
    return FindingWords.notExercisedReason(new RuleResult(rule, obligations, Optional.empty(),
        new Seen(OptionalLong.empty(), List.of(), List.of(), trials, 0, List.of()), List.of(), List.of()));
  }
}
