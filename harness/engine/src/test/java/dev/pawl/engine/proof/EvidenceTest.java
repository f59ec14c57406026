package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Evidence;
import dev.pawl.engine.Finding;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.Told;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every event that a finding names is one of the trace, at its own line, and not later than what it is evidence of,
 * which for a deadline is when the resolution has passed as well.
 */
class EvidenceTest {
  private static final int BOOKS = 20;
  private static final int SAMPLES = 15;

  static IntStream samples() {
    return IntStream.range(0, SAMPLES);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void evidenceIsOfTheTrace(int sample) {
    int named = 0;
    int tracked = 0;
    for (int number = sample * BOOKS; number < (sample + 1) * BOOKS; number++) {
      Draw draw = new Draw(9_000_000L + number);
      RuleBook book = RandomRules.book(draw, 6);
      Trace trace = RandomTraces.trace(draw);
      Told told = run(book, trace, Integer.MAX_VALUE).told();
      for (Finding finding : told.findings()) {
        for (Evidence evidence : finding.evidence()) {
          long resolution = book.rules().get(finding.rule()).resolution();
          long until = evidence.moment() == Evidence.Moment.TRIGGER ? finding.trigger() : finding.time() + resolution;
          named += check(book, trace, evidence, until);
        }
      }
      for (TrackingFinding finding : told.trackings()) {
        for (Evidence evidence : finding.evidence()) {
          tracked += check(book, trace, evidence, finding.time());
        }
      }
    }
    assertThat(named).as("events named").isGreaterThan(BOOKS);
    assertThat(tracked).as("events named for counts that cannot be right").isPositive();
  }

  /** One where the evidence names an event, none where it says that a signal has not had any yet. */
  private static int check(RuleBook book, Trace trace, Evidence evidence, long until) {
    if (evidence.line() == 0) {
      assertThat(evidence.value()).isEqualTo(EventSink.UNKNOWN);
      assertThat(trace.events()).as("%s %s", RuleText.of(book, trace), evidence).noneMatch(
          event -> event.signal() == evidence.signal() && event.time() < evidence.time()
              && event.value() != EventSink.UNKNOWN);
      return 0;
    }
    TraceEvent event = trace.events().get((int) evidence.line() - 1);
    assertThat(event).as(() -> RuleText.of(book, trace))
        .isEqualTo(new TraceEvent(evidence.time(), evidence.signal(), evidence.value()));
    assertThat(evidence.time()).as(() -> evidence + " of " + RuleText.of(book, trace)).isLessThanOrEqualTo(until);
    return 1;
  }

  @Test
  void aTriggerRestsOnItsScopeToo() {
    RuleBook book = TextCase.book("rule R \"\" basis practice when rises(a) while b unless d must c");
    Told told = run(book, TextCase.trace(book, "0 a 0; 0 b 0; 0 c 0; 0 d 0; 2 b 1; 4 a 1", 9), 5).told();

    assertThat(told.findings()).singleElement().satisfies(finding -> assertThat(finding.evidence())
        .filteredOn(evidence -> evidence.moment() == Evidence.Moment.TRIGGER)
            .extracting(evidence -> book.signals().get(evidence.signal()).name())
        .containsExactlyInAnyOrder("a", "b"));
  }

  @ParameterizedTest
  @MethodSource("samples")
  void findingsBeyondTheStatedNumberAreOnlyCounted(int sample) {
    for (int number = sample * BOOKS / 4; number < (sample + 1) * BOOKS / 4; number++) {
      Draw draw = new Draw(10_000_000L + number);
      RuleBook book = RandomRules.book(draw, 6);
      Trace trace = RandomTraces.trace(draw);
      Run all = run(book, trace, Integer.MAX_VALUE);
      Run two = run(book, trace, 2);

      assertThat(two.outcome()).isEqualTo(all.outcome());
      assertThat(two.told().findings()).isEqualTo(firstTwoOfEachKind(all.told().findings()));
      assertThat(two.told().trackings()).isEqualTo(firstTwoOfEachZone(all.told().trackings()));
    }
  }

  private static List<Finding> firstTwoOfEachKind(List<Finding> findings) {
    Map<Finding.Kind, int[]> told = new EnumMap<>(Finding.Kind.class);
    List<Finding> first = new ArrayList<>();
    for (Finding finding : findings) {
      int[] ofRule = told.computeIfAbsent(finding.kind(), kind -> new int[6]);
      if (ofRule[finding.rule()]++ < 2) {
        first.add(finding);
      }
    }
    return first;
  }

  private static List<TrackingFinding> firstTwoOfEachZone(List<TrackingFinding> findings) {
    int[] told = new int[2];
    return findings.stream().filter(finding -> told[finding.zone()]++ < 2).toList();
  }

  private record Run(Told told, TraceOutcome outcome) {}

  private static Run run(RuleBook book, Trace trace, int findingsPerRule) {
    Told told = new Told();
    RuleEngine engine = new RuleEngine(book, new EngineOptions(true, findingsPerRule), told);
    EngineRun.offline(engine, trace);
    return new Run(told, trace.statedEnd().isPresent() ? engine.finish(trace.statedEnd().getAsLong())
        : engine.finish());
  }
}
