package dev.pawl.engine.divided;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
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

/** What the handing over adds to engines of their own: whoever brings events does not wait for ever, and hears of a failure. */
@Timeout(30)
class DividedEngineTest {

  private static final int SIGNAL = 0;

  @Test
  void aFailureOfAnotherThreadIsToldAtTheEnd() {
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
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, failing, 2, 2)) {
      for (int time = 0; time < 1_000; time++) {
        engine.event(time, SIGNAL, time & 1, time);
      }
      assertThatThrownBy(engine::finish).isInstanceOf(IllegalStateException.class).hasMessage("no room for findings");
    }
  }

  @Test
  void endsItsThreadsWhenItIsLeftInTheMiddle() throws InterruptedException {
    Thread judge;
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, new Nobody(), 2, 2)) {
      engine.event(0, SIGNAL, 1, 1);
      judge = Thread.getAllStackTraces().keySet().stream().filter(thread -> thread.getName().equals("pawl-judge") && thread.isAlive())
          .findFirst().orElseThrow();
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
