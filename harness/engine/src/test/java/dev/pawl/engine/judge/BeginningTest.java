package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judge;
import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Sampling;
import dev.pawl.engine.Verdict;
import dev.pawl.engine.reference.Judgement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Where judging begins: with the first values of all that a rule reads, by which nothing happens. */
class BeginningTest {
  private static final Obligations NONE = new Obligations(0, 0, 0, 0, 0, 0, 0);
  private static final Obligations MISSED = new Obligations(0, 1, 0, 0, 0, 0, 0);
  private static final Obligations MET = new Obligations(1, 0, 0, 0, 0, 0, 0);

  private static Obligations of(String rule, String events) {
    return judgeRule(rule, events, 60).obligations();
  }

  @ParameterizedTest
  @ValueSource(strings = {"rises(a)", "changes(a)", "a", "falls(not a)"})
  void aFirstValueIsNoEdge(String trigger) {
    assertThat(of("when " + trigger + " must b", "0 b 0; 3 a 1")).isEqualTo(NONE);
    assertThat(of("when " + trigger + " must b", "0 b 0; 3 a 0; 5 a 1")).isEqualTo(MISSED);
  }

  @Test
  void aStateThatStandsAlreadyIsLateEvenFromHereOrShowsNothing() {
    assertThat(of("when a must b within 9 ns", "0 a 1; 0 b 0; 12 b 1")).isEqualTo(MISSED);
    assertThat(of("when a must b within 9 ns", "0 a 1; 0 b 0; 5 b 1")).isEqualTo(NONE);
    assertThat(of("when a must b throughout 9 ns", "0 a 1; 0 b 0")).isEqualTo(NONE);
    assertThat(of("when a must b within 9 ns, and stay so for 9 ns", "0 a 1; 0 b 0; 5 b 1; 7 b 0")).isEqualTo(NONE);
  }

  @Test
  void beforeAllIsSeenOnlyWhatIsMissedWhateverTheRestCounts() {
    assertThat(of("when rises(a) unless c must b within 9 ns", "0 a 0; 0 b 0; 5 a 1; 6 b 1; 40 c 0")).isEqualTo(NONE);
    assertThat(of("when rises(a) must b or c within 9 ns", "0 a 0; 0 b 0; 5 a 1; 40 c 0")).isEqualTo(NONE);
    assertThat(of("when rises(a) must b and c within 9 ns", "0 a 0; 0 b 0; 5 a 1; 40 c 0")).isEqualTo(MISSED);
  }

  /** As retained values of a broker do. */
  @Test
  void firstValuesThatComeOneAfterAnotherLeaveNothingUndecided() {
    assertThat(of("always a or b", "0 a 0; 2 b 1")).isEqualTo(MET);
    assertThat(of("never a and b while c", "0 a 1; 2 c 1; 4 b 0")).isEqualTo(MET);
    assertThat(of("always a and b", "0 a 0; 2 b 1; 3 a 1")).isEqualTo(MISSED);
  }

  @Test
  void whatNeverBeganIsNotExercised() {
    Judgement.OfRule rule =
        judge("zone z enter rises(a) leave rises(b) holds 1\nrule R \"\" basis practice never miscounts(z)",
        "0 c 0; 9 a 0", 30);

    assertThat(rule.obligations()).isEqualTo(NONE);
    assertThat(rule.obligations().verdict()).isEqualTo(Verdict.NOT_EXERCISED);
  }

  @Test
  void anInstantIsNoStretch() {
    Judgement.OfRule instant = judge("rule R \"\" basis practice never a", "0 a 0", 0);
    Judgement.OfRule longer = judge("rule R \"\" basis practice never a", "0 a 0", 30);

    assertThat(instant.obligations()).isEqualTo(NONE);
    assertThat(longer.obligations()).isEqualTo(MET);
    assertThat(longer.watched()).isEqualTo(30);
    assertThat(judge("rule R \"\" basis practice never a while b", "0 a 0; 2 b 0; 4 b 1; 9 b 0", 30).watched())
        .isEqualTo(5);
  }

  /** In a log of changes a flag may have come and gone long before its first row. */
  @ParameterizedTest
  @ValueSource(strings = {"not c since rises(b)", "not (not rises(b) for 20 ns)", "rises(b) in last 20 ns",
      "count(rises(b)) in last 20 ns > 0", "time since rises(b) < 20 ns"})
  void whatBeginsLateMayHaveMissedSomething(String required) {
    String rule = "when rises(a) must " + required;
    Obligations unknown = new Obligations(0, 0, 0, 0, 1, 0, 0);

    assertThat(soon(rule, 3, "0 a 0; 0 c 0; 30 b 0; 35 a 1")).isEqualTo(unknown);
    assertThat(soon(rule, 40, "0 a 0; 0 c 0; 30 b 0; 35 a 1")).isEqualTo(required.startsWith("time") ? unknown
        : MISSED);
    assertThat(soon(rule, 3, "0 a 0; 0 c 0; 30 b 0; 32 b 1; 51 a 1")).isEqualTo(MET);
  }

  private static Obligations soon(String rule, long firstValuesWithin, String events) {
    return judgeRule(rule, events, 60, Sampling.NONE.withFirstValues(firstValuesWithin)).obligations();
  }

  /** Anything may happen all through an unknown stretch, not only where it begins. */
  @Test
  void whatMayHaveHappenedCountsAsLongAsItMay() {
    String rule = "when rises(b) must count(rises(a)) in last 3 ns = 0";
    Obligations unknown = new Obligations(0, 0, 0, 0, 1, 0, 0);

    assertThat(of(rule, "0 a 0; 0 b 0; 10 a ?; 20 b 1")).isEqualTo(unknown);
    assertThat(of(rule, "0 a 0; 0 b 0; 10 a ?; 19 a 0; 20 b 1")).isEqualTo(unknown);
    assertThat(of(rule, "0 a 0; 0 b 0; 10 a ?; 15 a 0; 20 b 1")).isEqualTo(MET);
  }

  /** It rose, or it was true before and nobody saw. */
  @Test
  void aStateThatIsTrueAfterItWasUnknownPossiblyHappened() {
    Obligations maybe = new Obligations(0, 0, 0, 0, 0, 0, 1);

    assertThat(of("when a must b within 9 ns", "0 a 0; 0 b 0; 10 a ?; 12 a 1")).isEqualTo(maybe);
    assertThat(of("when a must b within 9 ns", "0 a 0; 0 b 0; 10 a ?; 12 a 1; 15 b 1")).isEqualTo(NONE);
  }
}
