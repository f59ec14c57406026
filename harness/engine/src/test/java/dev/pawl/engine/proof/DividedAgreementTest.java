package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.reference.Trace;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Dividing the rules among groups and threads, some events at a time, changes nothing of what is said. */
class DividedAgreementTest {
  private static final int SAMPLES = 20;
  private static final int BOOKS = 20;

  /** Small samples, as in {@link AgreementSampleTest}. */
  static IntStream samples() {
    return IntStream.range(0, SAMPLES);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void oneThreadSaysWhatAWholeEngineSays(int sample) {
    agree(sample, 1, 1);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void severalThreadsSayWhatAWholeEngineSays(int sample) {
    agree(sample, 2, 5);
  }

  private static void agree(int sample, int fewest, int most) {
    for (int number = sample * BOOKS; number < (sample + 1) * BOOKS; number++) {
      Draw draw = new Draw(7_000_000L + number);
      RuleBook book = RandomRules.book(draw, draw.between(1, 40));
      Trace trace = RandomTraces.trace(draw);
      EngineRun whole = EngineRun.of(book, trace, EngineRun.SHARED, EngineRun::offline);
      int threads = draw.between(fewest, most);

      EngineRun divided = EngineRun.divided(book, trace, threads, draw.between(1, 7));

      assertThat(divided.judgement()).as("%d rules, %d threads, %s", book.rules().size(), threads, trace)
          .isEqualTo(whole.judgement());
      assertThat(divided.outcome()).isEqualTo(whole.outcome());
      assertThat(divided.told()).isEqualTo(whole.told());
    }
  }
}
