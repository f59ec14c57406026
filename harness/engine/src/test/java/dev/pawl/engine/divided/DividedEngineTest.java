package dev.pawl.engine.divided;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the handing over adds to what the groups do: whoever brings events does not wait for ever, and hears of a failure. */
@Timeout(30)
class DividedEngineTest {

  private static final int SIGNAL = 0;

  /** Sooner or later, but before there is an outcome; and whoever asks again hears it again. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 5})
  void aFailureOnAnyThreadIsTold(int threads) {
    FindingListener failing = new FindingListener() {
      @Override
      public void finding(Finding finding) {
        throw new IllegalStateException("no room for findings");
      }

      @Override
      public void tracking(TrackingFinding finding) {}

      @Override
      public void lateResponse(int rule, long trigger, long deadline, long time) {}
    };
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, failing, threads, 2)) {
      assertThatThrownBy(() -> {
        alternate(engine, 1_000);
        engine.finish();
      }).isInstanceOf(IllegalStateException.class).hasMessage("no room for findings");
      assertThatThrownBy(engine::finish).hasMessage("no room for findings");
    }
  }

  private static void alternate(DividedEngine engine, int events) {
    for (int time = 0; time < events; time++) {
      engine.event(time, SIGNAL, time & 1, time);
    }
  }

  @Test
  void endsItsThreadsWhenItHasFinished() {
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, new Nobody(), 3, 2)) {
      alternate(engine, 100);
      List<Thread> judges = judges();
      assertThat(judges).hasSize(2);
      engine.finish();

      assertThat(judges).allSatisfy(judge -> {
        judge.join(10_000);
        assertThat(judge.isAlive()).isFalse();
      });
    }
  }

  private static List<Thread> judges() {
    return Thread.getAllStackTraces().keySet().stream().filter(thread -> thread.getName().equals("pawl-judge") && thread.isAlive())
        .toList();
  }

  @Test
  void refusesEventsOutOfOrderAsAWholeEngineDoes() {
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, new Nobody(), 2)) {
      engine.event(5, SIGNAL, 1, 1);

      assertThatThrownBy(() -> engine.event(4, SIGNAL, 0, 2)).isInstanceOf(IllegalArgumentException.class);
      assertThatThrownBy(() -> engine.advanceTo(4)).isInstanceOf(IllegalArgumentException.class);
    }
  }

  /** A trace may begin, and end, with times at which nothing happens that a rule needs. */
  @Test
  void aTraceBeginsAndEndsWithTheFirstAndTheLastTimeTold() {
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, new Nobody(), 2)) {
      engine.advanceTo(3);
      engine.event(5, SIGNAL, 1, 1);
      engine.advanceTo(9);

      TraceOutcome outcome = engine.finish();
      assertThat(List.of(outcome.start(), outcome.end(), outcome.events())).containsExactly(3L, 9L, 1L);
    }
  }

  @Test
  void endsItsThreadsWhenItIsLeftInTheMiddle() throws InterruptedException {
    Thread judge;
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, new Nobody(), 2, 2)) {
      engine.event(0, SIGNAL, 1, 1);
      judge = judges().get(0);
    }
    judge.join();
    assertThat(judge.isAlive()).isFalse();
  }

  @Test
  void aTraceWithoutEventsHasNoInstant() {
    try (DividedEngine engine = new DividedEngine(book(30), EngineOptions.DEFAULT, new Nobody(), 3)) {
      assertThat(engine.needs(SIGNAL)).isTrue();
      assertThat(engine.finish().rules()).hasSize(30).allMatch(rule -> rule.obligations().arisen() == 0);
    }
  }

  /** Rules that all say that the one signal is true. */
  private static RuleBook book(int rules) {
    Signal signal = new Signal(SIGNAL, "estop_chain", Signal.Direction.INPUT, new ValueType.Bool(), Position.NOWHERE);
    Rule.Always always = new Rule.Always(new BoolExpr.Signal(SIGNAL), false, Optional.empty(), Optional.empty());
    return new RuleBook("", 0, List.of(signal), List.of(), IntStream.range(0, rules)
        .mapToObj(index -> new Rule(index, "R-" + index, "", Rule.Severity.MINOR, "", true, always, 0, "", Position.NOWHERE)).toList());
  }

  private record Nobody() implements FindingListener {

    @Override
    public void finding(Finding finding) {}

    @Override
    public void tracking(TrackingFinding finding) {}

    @Override
    public void lateResponse(int rule, long trigger, long deadline, long time) {}
  }
}
