package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.reference.Judgement;
import dev.pawl.engine.reference.ReferenceEvaluator;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

/** Rules and traces on which the engine once differed from the reference evaluator, each shrunk to what matters. */
class CounterexamplesTest {

  @Test
  void sinceWithUnknownOperandAndBorderlineAnchorSettlesAtTheSecondMoment() {
    agree("rule R \"\" basis practice tolerance 2 always a since x > 0", "0 x 1; 1 b 1", 1);
  }

  @Test
  void meanOfAValueThatChangesJustAfterATime() {
    agree("rule R \"\" basis practice always mean(count(start) in last 1 ns) over 2 ns > 0.5", "0 b 0", 6);
  }

  @Test
  void speedBeginsAtAFlagThatRisesWhileTheOtherIsLost() {
    agree("rule R \"\" basis practice always speed(a, b, 1 m) <= 1 m/s", "0 a 0; 0 b 0; 1 a 1; 1 b ?; 2 b 0; 3 b 1", 3);
  }

  @Test
  void trainThatMayHaveLeftWhileAnotherEnteredLeavesTheCountOpen() {
    agree("zone z enter rises(a) leave rises(b) holds 1 starts with 0\nrule R \"\" basis practice always occupied(z)",
        "0 a 0; 0 b 0; 1 a 1; 1 b ?", 2);
  }

  @Test
  void latestOfTheResponsesBeforeALimitMakesTheMargin() {
    agree("rule R \"\" basis practice resolution 1 ns when not rises(a) must d before (true for 2 ns)",
        "0 a 0; 0 d 0; 1 a 1; 1 d 1", 42);
  }

  @Test
  void miscountsThatFollowEachOtherAreOverAfterTheLast() {
    agree("""
        zone z enter falls(c) then falls(c) and not d leave falls(d) then falls(a) holds 2
        rule R "" basis practice when miscounts(z) for 1 ns must d""", "0 a 0; 0 b 0; 0 c 1; 0 d 0; 1 c 0; 2 b 1", 3);
  }

  private static void agree(String rules, String events, long end) {
    String signals = "input a, b, c, d : bool\ninput x : number\n";
    Compilation compilation = RuleLanguage.compile(
        List.of(new Source("counterexample.rules", signals + rules)), SourceLoader.none());
    RuleBook book = compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered()));
    Trace trace = trace(book, events, end);
    Judgement expected = ReferenceEvaluator.judge(book, trace);

    assertThat(Differences.describe(expected, EngineRun.judge(book, trace))).isEmpty();
  }

  /** Events as {@code time signal value}, with {@code ?} for unknown. */
  private static Trace trace(RuleBook book, String text, long end) {
    List<TraceEvent> events = new ArrayList<>();
    for (String line : text.split("; ")) {
      String[] part = line.split(" ");
      var signal = book.signals().stream().filter(candidate -> candidate.name().equals(part[1])).findFirst().orElseThrow();
      boolean number = signal.type() instanceof ValueType.Quantity;
      long value = part[2].equals("?") ? EventSink.UNKNOWN
          : number ? Double.doubleToRawLongBits(Double.parseDouble(part[2])) : Long.parseLong(part[2]);
      events.add(new TraceEvent(Long.parseLong(part[0]), signal.index(), value));
    }
    return new Trace(events, OptionalLong.of(end));
  }
}
