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
import dev.pawl.report.model.TimeBase;
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

  @Test
  void aTriggerTriesARuleWhereItIsMet() {
    Rule rule = rule("when rises(release) must gates within 1 s tried by trigger tried by go");
    List<Tried> none = List.of(new Tried(0, OptionalLong.empty()), new Tried(0, OptionalLong.empty()));
    List<Tried> some = List.of(new Tried(2, OptionalLong.of(3_000_000_000L)), new Tried(1, OptionalLong.empty()));
    assertThat(FindingWords.tried(rule, none, TimeBase.START)).as("also where the trigger came and was missed")
        .containsExactly("tried by trigger: never met", "tried by go: never");
    assertThat(FindingWords.tried(rule, some, TimeBase.START)).containsExactly(
        "tried by trigger: met 2 times, first at 3.000 s", "tried by go: once");
  }

  private static Rule rule(String duty) {
    return RuleLanguage.compile(List.of(new Source("gates.rules",
        "input release, gates, bars, go : bool\nrule R-1 \"Gates\" basis practice " + duty)), SourceLoader.none())
        .book().orElseThrow().rules().get(0);
  }

  private static String reason(String duty, Obligations obligations, long... tried) {
    Rule rule = rule(duty);
    List<Tried> trials = Arrays.stream(tried).mapToObj(times -> new Tried(times, OptionalLong.empty())).toList();
    return FindingWords.notExercisedReason(new RuleResult(rule, obligations, Optional.empty(),
        new Seen(OptionalLong.empty(), List.of(), List.of(), trials, 0, List.of()), List.of(), List.of()));
  }
}
