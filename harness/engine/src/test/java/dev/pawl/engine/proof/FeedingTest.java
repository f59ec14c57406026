package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.reference.Judgement;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.BiFunction;
import org.junit.jupiter.api.Test;

/**
 * The verdicts do not depend on how the events come, on sharing, or on the order of rules and of events within an
 * instant.
 */
class FeedingTest {
  private static final int BOOKS = 1_500;
  private static final int RULES_PER_BOOK = 8;

  @Test
  void liveGivesTheSameAsOffline() {
    sameAsOffline(1, (book, trace) -> {
      Draw draw = new Draw(trace.hashCode());
      return EngineRun.of(book, trace, EngineRun.SHARED, (engine, events) -> live(draw, engine, events)).judgement();
    });
  }

  @Test
  void chunksGiveTheSameAsOffline() {
    sameAsOffline(2, (book, trace) -> EngineRun.of(book, trace, EngineRun.SHARED, FeedingTest::inChunks).judgement());
  }

  @Test
  void sharingChangesNothing() {
    sameAsOffline(3, (book, trace) -> EngineRun.of(book, trace, EngineRun.UNSHARED, EngineRun::offline).judgement());
  }

  @Test
  void orderOfRulesChangesNothing() {
    sameAsOffline(4, (book, trace) -> {
      List<Integer> order = new ArrayList<>();
      book.rules().forEach(rule -> order.add(rule.index()));
      Collections.shuffle(order, new Random(trace.hashCode()));
      Judgement judged = EngineRun.judge(reordered(book, order), trace);
      List<Judgement.OfRule> back = new ArrayList<>(judged.rules());
      for (int place = 0; place < order.size(); place++) {
        back.set(order.get(place), judged.rules().get(place));
      }
      return new Judgement(back, judged.zones(), judged.signals());
    });
  }

  @Test
  void orderOfEventsWithinAnInstantChangesNothing() {
    sameAsOffline(5, (book, trace) -> EngineRun.judge(book, shuffledInstants(trace)));
  }

  @Test
  void countsWhatTheTraceHeld() {
    for (int number = 0; number < BOOKS; number++) {
      Draw draw = new Draw(6_000_000L + number);
      RuleBook book = RandomRules.book(draw, 1);
      Trace trace = RandomTraces.trace(draw);

      TraceOutcome outcome = EngineRun.of(book, trace, EngineRun.SHARED, EngineRun::offline).outcome();

      assertThat(outcome.start()).isEqualTo(trace.start());
      assertThat(outcome.end()).isEqualTo(trace.end());
      assertThat(outcome.events()).isEqualTo(trace.events().size());
      assertThat(outcome.overwritten()).isEqualTo(overwritten(trace));
    }
  }

  /** Events that gave their signal another value than an earlier event of the same time. */
  private static long overwritten(Trace trace) {
    Map<List<Long>, Long> values = new HashMap<>();
    long overwritten = 0;
    for (TraceEvent event : trace.events()) {
      Long before = values.put(List.of(event.time(), (long) event.signal()), event.value());
      overwritten += before != null && before != event.value() ? 1 : 0;
    }
    return overwritten;
  }

  private static void sameAsOffline(long series, BiFunction<RuleBook, Trace, Judgement> otherWay) {
    int exercised = 0;
    for (int number = 0; number < BOOKS; number++) {
      Draw draw = new Draw(series * 1_000_000 + number);
      RuleBook book = RandomRules.book(draw, RULES_PER_BOOK);
      Trace trace = RandomTraces.trace(draw);
      Judgement offline = EngineRun.judge(book, trace);
      Judgement other = otherWay.apply(book, trace);
      if (!offline.equals(other)) {
        Shrinker.Case small = Shrinker.shrink(book, trace, (b, t) -> !EngineRun.judge(b, t)
            .equals(otherWay.apply(b, t)));
        assertThat(otherWay.apply(small.book(), small.trace())).as("%s", small)
            .isEqualTo(EngineRun.judge(small.book(), small.trace()));
      }
      exercised += offline.rules().stream().anyMatch(rule -> rule.obligations().arisen() > 0) ? 1 : 0;
    }
    assertThat(exercised).as("books with an obligation").isGreaterThan(BOOKS / 2);
  }

  /** Says again and again that time has gone on, up to but not past the next event, as a live feed does. */
  private static void live(Draw draw, RuleEngine engine, Trace trace) {
    long now = trace.start();
    for (TraceEvent event : trace.events()) {
      while (now < event.time()) {
        now += draw.between(1, (int) (event.time() - now));
        if (draw.percent(60)) {
          engine.advanceTo(now);
        }
      }
      engine.event(event.time(), event.signal(), event.value(), 0);
    }
    while (now < trace.end()) {
      now++;
      if (draw.percent(50)) {
        engine.advanceTo(now);
      }
    }
  }

  /** Takes a few events at a time and then says that all before the next chunk's first time has come. */
  private static void inChunks(RuleEngine engine, Trace trace) {
    int taken = 0;
    for (TraceEvent event : trace.events()) {
      if (taken % 5 == 4) {
        engine.advanceTo(event.time());
      }
      engine.event(event.time(), event.signal(), event.value(), 0);
      taken++;
    }
    engine.advanceTo(trace.end());
  }

  private static RuleBook reordered(RuleBook book, List<Integer> order) {
    List<Rule> rules = new ArrayList<>();
    for (int place = 0; place < order.size(); place++) {
      Rule rule = book.rules().get(order.get(place));
      rules.add(TestSignals.rule(place, rule.duty(), rule.proof(), rule.resolution()));
    }
    return TestSignals.book(book.zones(), rules);
  }

  /** Events of one time in another order, those of one signal in the order they had. */
  private static Trace shuffledInstants(Trace trace) {
    Random random = new Random(trace.hashCode());
    List<TraceEvent> events = new ArrayList<>(trace.events());
    for (int round = 0; round < 3 * events.size(); round++) {
      int at = events.size() < 2 ? 0 : random.nextInt(events.size() - 1);
      TraceEvent one = events.get(at);
      TraceEvent next = events.get(Math.min(at + 1, events.size() - 1));
      if (one.time() == next.time() && one.signal() != next.signal()) {
        Collections.swap(events, at, at + 1);
      }
    }
    return new Trace(events, trace.statedEnd(), trace.sampling());
  }
}
