package dev.pawl.engine.groups;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.Told;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the handing over adds to what the groups do: whoever brings events does not wait for ever, and hears of a
 * failure.
 */
@Timeout(30)
class DividedEngineTest {

  private static final int SIGNAL = 0;
  private static final int UNNEEDED = 1;

  /** Sooner or later, but before there is an outcome; and whoever asks again hears it again. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 5})
  void aFailureOnAnyThreadIsTold(int threads) {
    FindingListener failing = (Told.OfRules) finding -> {
      throw new IllegalStateException("no room for findings");
    };
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, failing, threads, 2)) {
      assertThatThrownBy(() -> {
        alternate(engine, 1_000);
        engine.finish();
      }).isInstanceOf(IllegalStateException.class).hasMessage("no room for findings");
      assertThatThrownBy(engine::finish).hasMessage("no room for findings");
    }
  }

  @Test
  void oneThreadIsToldOfAFailureByTheEventThatFillsABlock() {
    FindingListener failing = (Told.OfRules) finding -> {
      throw new IllegalStateException("no room for findings");
    };
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, failing, 1, 2)) {
      engine.event(0, SIGNAL, 0, 1);

      assertThatThrownBy(() -> engine.event(1, SIGNAL, 1, 2)).hasMessage("no room for findings");
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
      assertThat(judges).hasSize(2).allMatch(Thread::isDaemon);
      engine.finish();

      assertThat(judges).allSatisfy(judge -> {
        judge.join(10_000);
        assertThat(judge.isAlive()).isFalse();
      });
    }
  }

  private static List<Thread> judges() {
    return Thread.getAllStackTraces().keySet().stream().filter(thread -> thread.getName().equals("pawl-judge")
        && thread.isAlive())
        .toList();
  }

  /** A judge that waits for work, once there is one: one of an engine that is closed may still be about to end. */
  private static Thread awaitWaitingJudge() throws InterruptedException {
    while (true) {
      for (Thread judge : judges()) {
        if (judge.getState() == Thread.State.WAITING) {
          return judge;
        }
      }
      Thread.sleep(1);
    }
  }

  /** The one who brings events goes on with that, as long as there are empty blocks. */
  @Test
  void othersJudgeWhatIsBrought() throws InterruptedException {
    Set<String> judged = ConcurrentHashMap.newKeySet();
    CountDownLatch told = new CountDownLatch(4);
    FindingListener listener = (Told.OfRules) finding -> {
      judged.add(Thread.currentThread().getName());
      told.countDown();
    };
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, listener, 2, 2)) {
      awaitWaitingJudge();
      alternate(engine, 2);

      assertThat(told.await(10, TimeUnit.SECONDS)).isTrue();
      assertThat(judged).containsExactly("pawl-judge");
      engine.finish();
    }
  }

  @Test
  void whoeverIsInterruptedWhileOthersJudgeIsToldSo() throws InterruptedException {
    CountDownLatch judging = new CountDownLatch(1);
    CountDownLatch mayGoOn = new CountDownLatch(1);
    FindingListener held = (Told.OfRules) finding -> {
      judging.countDown();
      awaitQuietly(mayGoOn);
    };
    try (DividedEngine engine = new DividedEngine(book(1), EngineOptions.DEFAULT, held, 2, 2)) {
      awaitWaitingJudge();
      alternate(engine, 2);
      judging.await();
      Thread.currentThread().interrupt();

      assertThatThrownBy(engine::finish).isInstanceOf(IllegalStateException.class).hasMessageContaining("interrupted");
      assertThat(Thread.interrupted()).as("still interrupted").isTrue();
    } finally {
      mayGoOn.countDown();
    }
  }

  private static void awaitQuietly(CountDownLatch latch) {
    try {
      latch.await();
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void theListenerIsCalledByOneThreadAtATime() {
    AtomicInteger inside = new AtomicInteger();
    AtomicInteger most = new AtomicInteger();
    FindingListener slow = (Told.OfRules) finding -> {
      most.accumulateAndGet(inside.incrementAndGet(), Math::max);
      LockSupport.parkNanos(1_000_000);
      inside.decrementAndGet();
    };
    try (DividedEngine engine = new DividedEngine(apart(4), EngineOptions.DEFAULT, slow, 4, 2)) {
      for (int time = 0; time < 40; time++) {
        for (int signal = 0; signal < 4; signal++) {
          engine.event(time, signal, time & 1, time);
        }
      }
      engine.finish();
    }
    assertThat(most).hasValue(1);
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

  /** What counts from the start counts from when the trace begins, not from the first event that the rule needs. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2})
  void rulesKnowWhenATraceBegins(int threads) {
    List<Long> times = new ArrayList<>();
    BoolExpr early = new BoolExpr.Compare(Comparison.LESS, new NumExpr.TimeSince(new BoolExpr.TraceStart()),
        new NumExpr.Constant(4e-9), 0);
    RuleBook book = book(2, List.of(always(0, new BoolExpr.Or(early, new BoolExpr.Signal(SIGNAL)))));
    try (DividedEngine engine = new DividedEngine(book, EngineOptions.DEFAULT, (Told.OfRules) finding ->
        times.add(finding.time()), threads)) {
      engine.advanceTo(3);
      engine.event(5, SIGNAL, 0, 1);
      engine.event(9, SIGNAL, 1, 2);
      engine.finish();
    }
    assertThat(times).containsExactly(7L);
  }

  /** One too far from the epoch does not count as the beginning. */
  @Test
  void aRefusedEventBeginsNothing() {
    List<Long> times = new ArrayList<>();
    try (DividedEngine engine = new DividedEngine(book(1), EngineOptions.DEFAULT, (Told.OfRules) finding ->
        times.add(finding.time()), 1)) {
      assertThatThrownBy(() -> engine.event(Long.MIN_VALUE / 3, SIGNAL, 1, 1))
          .isInstanceOf(IllegalArgumentException.class);
      assertThatThrownBy(() -> engine.advanceTo(Long.MIN_VALUE / 3)).isInstanceOf(IllegalArgumentException.class);
      engine.event(5, SIGNAL, 0, 2);
      engine.finish();
    }
    assertThat(times).containsExactly(5L);
  }

  @Test
  void saysWhichSignalsAnyRuleNeeds() {
    try (DividedEngine engine = new DividedEngine(book(3), EngineOptions.DEFAULT, new Nobody(), 1)) {
      assertThat(engine.needs(SIGNAL)).isTrue();
      assertThat(engine.needs(UNNEEDED)).isFalse();
    }
  }

  @Test
  void endsItsThreadsWhenItIsLeftInTheMiddle() throws InterruptedException {
    Thread judge;
    try (DividedEngine engine = new DividedEngine(book(4), EngineOptions.DEFAULT, new Nobody(), 2, 2)) {
      engine.event(0, SIGNAL, 1, 1);
      judge = awaitWaitingJudge();
    }
    judge.join(10_000);
    assertThat(judge.isAlive()).isFalse();
  }

  @Test
  void aTraceWithoutEventsHasNoInstant() {
    try (DividedEngine engine = new DividedEngine(book(30), EngineOptions.DEFAULT, new Nobody(), 3)) {
      assertThat(engine.needs(SIGNAL)).isTrue();
      assertThat(engine.finish().rules()).hasSize(30).allMatch(rule -> rule.obligations().arisen() == 0);
    }
  }

  /** Rules that all say that one of two signals is true: one group. */
  private static RuleBook book(int rules) {
    return book(2, IntStream.range(0, rules).mapToObj(index -> isTrue(index, SIGNAL)).toList());
  }

  /** Rules that each say of a signal of its own that it is true: as many groups. */
  private static RuleBook apart(int rules) {
    return book(rules, IntStream.range(0, rules).mapToObj(index -> isTrue(index, index)).toList());
  }

  private static RuleBook book(int signals, List<Rule> rules) {
    List<Signal> named = IntStream.range(0, signals)
        .mapToObj(index -> new Signal(index, "flag_" + index, Signal.Direction.INPUT, new ValueType.Bool(),
            Position.NOWHERE)).toList();
    return new RuleBook("", 0, named, List.of(), rules);
  }

  private static Rule isTrue(int index, int signal) {
    return always(index, new BoolExpr.Signal(signal));
  }

  private static Rule always(int index, BoolExpr required) {
    Rule.Always always = new Rule.Always(required, false, Optional.empty(), Optional.empty());
    return new Rule(index, "R-" + index, "", Rule.Severity.MINOR, Rule.Basis.PRACTICE, always, Proof.NONE, 0, "",
        Position.NOWHERE);
  }

  private record Nobody() implements Told.OfRules {

    @Override
    public void finding(Finding finding) {}
  }
}
