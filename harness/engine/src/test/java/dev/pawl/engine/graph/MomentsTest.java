package dev.pawl.engine.graph;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Sums of moments stay within time. */
class MomentsTest {

  @Test
  void aSumThatWouldRunOverIsForever() {
    assertThat(Moments.later(Long.MAX_VALUE - 5, 6)).isEqualTo(Moments.FOREVER);
    assertThat(Moments.later(Long.MAX_VALUE - 5, 4)).isEqualTo(Long.MAX_VALUE - 1);
  }

  @Test
  void afterNeverIsNever() {
    assertThat(Moments.later(Moments.NEVER, 10)).isEqualTo(Moments.NEVER);
  }

  @Test
  void aSpanIsTwoMomentsForEachNanosecondAsFarAsThatGoes() {
    assertThat(Moments.span(Long.MAX_VALUE / 4)).isEqualTo(Long.MAX_VALUE / 4 * 2);
    assertThat(Moments.span(Long.MAX_VALUE)).isEqualTo(Long.MAX_VALUE / 2);
  }
}
