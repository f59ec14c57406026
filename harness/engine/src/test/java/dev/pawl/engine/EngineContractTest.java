package dev.pawl.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

/** What callers of the engine may rely on besides the verdicts. */
class EngineContractTest {
  private static final long LIMIT = Long.MAX_VALUE / 4;
  private static final String RULES = """
      input a, b, spare : bool
      zone z enter rises(a) leave rises(b) holds 1 starts with 0
      rule R "" basis practice when rises(a) must b within 5 ns
      rule S "" basis practice when falls(a) must not occupied(z)
      rule T "" basis practice never occupied(z) and a
      """;

  private final Told told = new Told();
  private final RuleEngine engine = engine();

  private RuleEngine engine() {
    return engine(RULES, EngineOptions.DEFAULT);
  }

  private RuleEngine engine(String rules, EngineOptions options) {
    Compilation compilation = RuleLanguage.compile(List.of(new Source("contract.rules", rules)), SourceLoader.none());
    return new RuleEngine(compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered())), options,
        told);
  }

  @Test
  void needsOnlyTheSignalsThatSomethingRestsOn() {
    assertThat(engine.needs(0)).isTrue();
    assertThat(engine.needs(1)).isTrue();
    assertThat(engine.needs(2)).isFalse();
  }

  @Test
  void refusesTimesThatGoBack() {
    engine.event(10, 0, 0, 1);
    engine.advanceTo(10);

    assertThatIllegalArgumentException().isThrownBy(() -> engine.event(9, 0, 1, 2))
        .withMessageContaining("order of time");
    assertThatIllegalArgumentException().isThrownBy(() -> engine.finish(9));
  }

  /**
   * Whoever watches a live feed has to hear of a missed deadline when it has passed, not when something changes after
   * it.
   */
  @Test
  void tellsOfAMissedDeadlineAsSoonAsALaterTimeIsTold() {
    engine.event(0, 0, 0, 1);
    engine.event(0, 1, 0, 2);
    engine.event(4, 0, 1, 3);
    engine.advanceTo(9);
    assertThat(of(0)).isEmpty();
    engine.advanceTo(10);
    assertThat(of(0)).hasSize(1);
    assertThat(engine.soFar().end()).isEqualTo(10);

    engine.event(20, 0, 0, 4);
    engine.event(22, 0, 1, 5);
    engine.event(28, 2, EventSink.UNKNOWN, 6);
    assertThat(of(0)).hasSize(2);
  }

  @Test
  void takesTimesUpToTheLimitEitherWay() {
    engine.event(-LIMIT, 0, 0, 1);
    engine.event(LIMIT, 0, 1, 2);

    assertThat(engine.finish().end()).isEqualTo(LIMIT);

    RuleEngine late = engine();
    late.event(LIMIT, 0, 0, 1);
    assertThat(late.finish().start()).isEqualTo(LIMIT);
  }

  @Test
  void refusesTimesBeyondTheLimit() {
    assertThatIllegalArgumentException().isThrownBy(() -> engine().event(LIMIT + 1, 0, 0, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> engine().event(-LIMIT - 1, 0, 0, 1));
    engine.event(0, 0, 0, 1);
    assertThatIllegalArgumentException().isThrownBy(() -> engine.event(LIMIT + 1, 0, 0, 1));
  }

  @Test
  void countsEventsAndThoseThatWereOverwritten() {
    engine.event(0, 0, 0, 1);
    engine.event(0, 1, 0, 2);
    engine.event(0, 0, 0, 3);
    engine.event(3, 0, 1, 4);
    engine.event(3, 0, 0, 5);
    engine.event(3, 0, 1, 6);
    TraceOutcome outcome = engine.finish(7);

    assertThat(outcome.events()).isEqualTo(6);
    assertThat(outcome.overwritten()).isEqualTo(2);
    assertThat(outcome.start()).isZero();
    assertThat(outcome.end()).isEqualTo(7);
  }

  @Test
  void aTraceWithoutInstantsExercisesNothing() {
    TraceOutcome outcome = engine.finish();

    assertThat(outcome.rules()).extracting(RuleOutcome::verdict).containsOnly(Verdict.NOT_EXERCISED);
    assertThat(outcome.events()).isZero();
  }

  @Test
  void namesTheEventsBehindTriggerAndBreak() {
    engine.event(0, 0, 0, 1);
    engine.event(0, 1, 1, 2);
    engine.event(4, 0, 1, 3);
    engine.event(4, 1, 0, 4);
    engine.event(6, 0, 0, 5);
    engine.finish(20);

    assertThat(of(0)).containsExactly(new Finding(0, Finding.Kind.NO_RESPONSE, 4, 9, false, 9,
        List.of(new Evidence(Evidence.Moment.TRIGGER, 4, 0, 1, 3), new Evidence(Evidence.Moment.BREAK, 4, 1, 0, 4))));
  }

  @Test
  void namesTheFlagsBehindAnOccupancy() {
    engine.event(0, 0, 0, 1);
    engine.event(0, 1, 0, 2);
    engine.event(4, 0, 1, 3);
    engine.event(6, 0, 0, 4);
    engine.finish(20);

    assertThat(of(1)).containsExactly(new Finding(1, Finding.Kind.NOT_AT_TRIGGER, 6, 6, false, 6,
        List.of(new Evidence(Evidence.Moment.TRIGGER, 6, 0, 0, 4), new Evidence(Evidence.Moment.BREAK, 4, 0, 1, 3))));
    assertThat(of(2)).containsExactly(new Finding(2, Finding.Kind.FALSE_STATE, 0, 4, false, 4,
        List.of(new Evidence(Evidence.Moment.BREAK, 4, 0, 1, 3))));
  }

  /** Who was not told of a miss would not know what the response is late for. */
  @Test
  void tellsOfALateResponseOnlyWhereTheMissWasTold() {
    RuleEngine brief = engine(RULES, new EngineOptions(true, 2));
    brief.event(0, 0, 0, 1);
    brief.event(0, 1, 0, 2);
    for (long time = 1; time <= 6; time++) {
      brief.event(time, 0, time % 2, 2 + time);
    }
    brief.event(30, 1, 1, 9);
    brief.event(31, 1, 0, 10);
    brief.event(32, 1, 1, 11);

    assertThat(brief.finish(40).rules().get(0).obligations().missed()).isEqualTo(3);
    assertThat(told.late()).extracting(Told.Late::trigger).containsExactly(1L, 3L);
  }

  @Test
  void tellsNoMoreFindingsAtTheTriggerThanItWasAskedFor() {
    RuleEngine brief = engine(RULES, new EngineOptions(true, 2));
    brief.event(0, 1, 0, 1);
    for (long time = 0; time <= 7; time++) {
      brief.event(time, 0, time % 2, 2 + time);
    }

    assertThat(brief.finish().rules().get(1).obligations().missed()).isEqualTo(3);
    assertThat(of(1)).extracting(Finding::trigger).containsExactly(2L, 4L);
  }

  private List<Finding> of(int rule) {
    return told.findings().stream().filter(finding -> finding.rule() == rule).toList();
  }

  @Test
  void namesTheEventsBehindACountThatCannotBeRight() {
    engine.event(0, 0, 0, 1);
    engine.event(0, 1, 0, 2);
    engine.event(3, 0, 1, 3);
    engine.event(4, 1, 1, 4);
    engine.event(5, 1, 0, 5);
    engine.event(7, 1, 1, 6);
    engine.finish();

    assertThat(told.trackings()).containsExactly(new TrackingFinding(0, TrackingFinding.Kind.LEFT_EMPTY, 7,
        OptionalLong.empty(), List.of(new Evidence(Evidence.Moment.BREAK, 3, 0, 1, 3),
        new Evidence(Evidence.Moment.BREAK, 7, 1, 1, 6))));
  }

  /** A flag that changed again without anything being counted is no evidence of the count. */
  @Test
  void namesTheEventsThatWereCountedAndNotLaterOnesOfTheSameFlags() {
    engine.event(0, 0, 0, 1);
    engine.event(0, 1, 0, 2);
    engine.event(3, 0, 1, 3);
    engine.event(4, 0, 0, 4);
    engine.event(5, 1, 1, 5);
    engine.event(6, 1, 0, 6);
    engine.event(7, 1, 1, 7);
    engine.finish();

    assertThat(told.trackings()).containsExactly(new TrackingFinding(0, TrackingFinding.Kind.LEFT_EMPTY, 7,
        OptionalLong.empty(), List.of(new Evidence(Evidence.Moment.BREAK, 3, 0, 1, 3),
        new Evidence(Evidence.Moment.BREAK, 7, 1, 1, 7))));
  }

  /**
   * The same with two flags at the entry: the inner one coming, and the outer one going while it is there, count
   * nothing.
   */
  @Test
  void namesTheFlagsOfAPairAsTheyWereWhenATrainWasCounted() {
    RuleEngine pair = engine("""
        input a, b, c : bool
        zone z enter a then b leave rises(c) holds 1 starts with 0
        """, EngineOptions.DEFAULT);
    for (int signal = 0; signal < 3; signal++) {
      pair.event(0, signal, 0, 1 + signal);
    }
    pair.event(1, 0, 1, 4);
    pair.event(2, 1, 1, 5);
    pair.event(3, 0, 0, 6);
    pair.event(4, 1, 0, 7);
    pair.event(5, 2, 1, 8);
    pair.event(6, 2, 0, 9);
    pair.event(7, 2, 1, 10);
    pair.finish();

    assertThat(told.trackings()).containsExactly(new TrackingFinding(0, TrackingFinding.Kind.LEFT_EMPTY, 7,
        OptionalLong.empty(), List.of(new Evidence(Evidence.Moment.BREAK, 1, 0, 1, 4),
        new Evidence(Evidence.Moment.BREAK, 0, 1, 0, 2),
            new Evidence(Evidence.Moment.BREAK, 7, 2, 1, 10))));
  }
}
