package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.reference.Judgement;
import dev.pawl.engine.reference.ReferenceEvaluator;
import dev.pawl.engine.reference.Trace;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A quick form of {@link AgreementTest} that does not shrink what it finds, each book fed once with sharing and once without:
 * what mutation testing runs against every changed engine.
 */
class AgreementSampleTest {
  private static final int BOOKS = 25;
  private static final int RULES_PER_BOOK = 8;
  private static final int SAMPLES = 40;

  /** Small samples, so that most changed engines are found out by the first. */
  static IntStream samples() {
    return IntStream.range(0, SAMPLES);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void agreesOnASample(int sample) {
    for (int book = sample * BOOKS; book < (sample + 1) * BOOKS; book++) {
      Draw draw = new Draw(3_000_000_000L + book);
      RuleBook rules = RandomRules.book(draw, RULES_PER_BOOK);
      Trace trace = book % BOOKS == 0 ? RandomTraces.longer(draw) : RandomTraces.trace(draw);
      Judgement expected = ReferenceEvaluator.judge(rules, trace);

      for (boolean share : new boolean[] {true, false}) {
        EngineOptions options = share ? EngineRun.SHARED : EngineRun.UNSHARED;
        Judgement judged = EngineRun.of(rules, trace, options, EngineRun::offline).judgement();

        assertThat(Differences.any(expected, judged)).as("the two evaluators differ on book %d", book).isFalse();
      }
    }
  }
}
