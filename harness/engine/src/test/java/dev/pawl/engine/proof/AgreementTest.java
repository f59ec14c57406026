package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import dev.pawl.engine.Verdict;
import dev.pawl.engine.reference.Judgement;
import dev.pawl.engine.reference.ReferenceEvaluator;
import dev.pawl.engine.reference.Trace;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.EnumMap;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** The engine agrees with the reference evaluator on random rules over random traces. */
class AgreementTest {
  private static final int RULES_PER_BOOK = 10;
  private static final long SEED = 20261125;

  @Test
  void agreesOnTwoHundredThousandPairs() {
    Map<Verdict, Long> verdicts = agreeOn(200_000, SEED);

    assertThat(verdicts.values()).as("every verdict is drawn often: %s", verdicts).allMatch(count -> count > 5_000)
        .hasSize(4);
  }

  /** Bounds of numbers are evaluated least of all: only where a value means something new. */
  @Test
  void agreesOnFiftyThousandBounds() {
    agreeOnBounds(50_000, SEED + 2);
  }

  @Test
  @Tag("soak")
  void agreesOnTwoMillionBounds() {
    agreeOnBounds(2_000_000, SEED + 3);
  }

  private static void agreeOnBounds(int pairs, long seed) {
    Map<Verdict, Long> verdicts = agreeOn(pairs, seed, RandomRules::boundsBook, RandomTraces::ofNumbers);

    assertThat(verdicts.values()).as("every verdict is drawn often: %s", verdicts).allMatch(count -> count > pairs / 50)
        .hasSize(4);
  }

  @Test
  @Tag("soak")
  void agreesOnTenMillionPairs() {
    Map<Verdict, Long> verdicts = agreeOn(10_000_000, SEED + 1);

    assertThat(verdicts.values()).as("every verdict is drawn often: %s", verdicts).allMatch(count -> count > 250_000)
        .hasSize(4);
  }

  private static Map<Verdict, Long> agreeOn(int pairs, long seed) {
    return agreeOn(pairs, seed, RandomRules::book, RandomTraces::trace);
  }

  private static Map<Verdict, Long> agreeOn(int pairs, long seed, BiFunction<Draw, Integer, RuleBook> books,
      Function<Draw, Trace> traces) {
    Map<Verdict, Long> verdicts = new EnumMap<>(Verdict.class);
    for (int book = 0; book < pairs / RULES_PER_BOOK; book++) {
      Draw draw = new Draw(seed + 1_000_003L * book);
      RuleBook rules = books.apply(draw, RULES_PER_BOOK);
      Trace trace = traces.apply(draw);
      Judgement expected = ReferenceEvaluator.judge(rules, trace);
      if (differs(rules, trace, expected)) {
        fail(counterexample(rules, trace));
      }
      expected.rules().forEach(rule -> verdicts.merge(rule.obligations().verdict(), 1L, Long::sum));
    }
    return verdicts;
  }

  private static boolean differs(RuleBook rules, Trace trace, Judgement expected) {
    try {
      return Differences.any(expected, EngineRun.judge(rules, trace));
    } catch (RuntimeException thrown) {
      return true;
    }
  }

  static String counterexample(RuleBook rules, Trace trace) {
    Shrinker.Case small = Shrinker.shrink(rules, trace,
        (book, shorter) -> differs(book, shorter, ReferenceEvaluator.judge(book, shorter)));
    Judgement expected = ReferenceEvaluator.judge(small.book(), small.trace());
    try {
      return small + "\n" + String.join("\n", Differences.describe(expected,
          EngineRun.judge(small.book(), small.trace())));
    } catch (RuntimeException thrown) {
      StringBuilder where = new StringBuilder(thrown.toString());
      for (int frame = 0; frame < Math.min(6, thrown.getStackTrace().length); frame++) {
        where.append("\n    at ").append(thrown.getStackTrace()[frame]);
      }
      return small + "\n" + where;
    }
  }
}
