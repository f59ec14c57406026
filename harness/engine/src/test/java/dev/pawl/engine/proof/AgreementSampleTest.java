package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.reference.Judgement;
import dev.pawl.engine.reference.ReferenceEvaluator;
import dev.pawl.engine.reference.Trace;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A quick form of {@link AgreementTest} that does not shrink what it finds, each book fed once with sharing and once
 * without: what mutation testing runs against every changed engine.
 */
class AgreementSampleTest {
  private static final int BOOKS = 5;
  private static final int RULES_PER_BOOK = 8;
  private static final int SAMPLES = 40;

  private static final Kind NESTED = new Kind(3_000_000_000L, RandomRules::book,
      (draw, number) -> number % 25 == 0 ? RandomTraces.longer(draw) : RandomTraces.trace(draw), new HashMap<>());
  private static final Kind PLAIN =
      new Kind(4_000_000_000L, RandomRules::plainBook, (draw, number) -> RandomTraces.ofSwitches(draw),
          new HashMap<>());
  private static final Kind BOUNDS =
      new Kind(5_000_000_000L, RandomRules::boundsBook, (draw, number) -> RandomTraces.ofNumbers(draw),
          new HashMap<>());

  /**
   * How a kind of pairs is drawn.
   *
   * @param drawn kept, since mutation testing asks for the same ones for every changed engine, and the reference
   *     evaluator is slow
   */
  private record Kind(long seed, BiFunction<Draw, Integer, RuleBook> books, BiFunction<Draw, Integer, Trace> traces,
      Map<Integer, Pair> drawn) {

    Pair pair(int number) {
      return drawn.computeIfAbsent(number, this::draw);
    }

    private Pair draw(int number) {
      Draw draw = new Draw(seed + number);
      RuleBook rules = books.apply(draw, RULES_PER_BOOK);
      Trace trace = traces.apply(draw, number);
      return new Pair(number, rules, trace, ReferenceEvaluator.judge(rules, trace));
    }
  }

  /** A rule book and a trace, with what the reference evaluator says of them. */
  private record Pair(int number, RuleBook rules, Trace trace, Judgement expected) {}

  /**
   * Small samples, so that most changed engines are found out by the first, and so that one that hangs is found to hang
   * soon.
   */
  static IntStream samples() {
    return IntStream.range(0, SAMPLES);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void agreesOnASample(int sample) {
    agree(NESTED, sample);
  }

  /**
   * Simple conditions over traces full of changes lead deeper into the judges than the nested ones, most of which
   * seldom change.
   */
  @ParameterizedTest
  @MethodSource("samples")
  void agreesOnASampleOfPlainRules(int sample) {
    agree(PLAIN, sample);
  }

  /** What is not evaluated, since it would come out as before, does come out as before. */
  @ParameterizedTest
  @MethodSource("samples")
  void agreesOnASampleOfBounds(int sample) {
    agree(BOUNDS, sample);
  }

  private static void agree(Kind kind, int sample) {
    for (int book = sample * BOOKS; book < (sample + 1) * BOOKS; book++) {
      agree(kind.pair(book));
    }
  }

  private static void agree(Pair pair) {
    for (EngineOptions options : List.of(EngineRun.SHARED, EngineRun.UNSHARED)) {
      Judgement judged = EngineRun.of(pair.rules(), pair.trace(), options, EngineRun::offline).judgement();

      assertThat(Differences.any(pair.expected(), judged)).as("the two evaluators differ on %s", pair.number())
          .isFalse();
    }
  }
}
