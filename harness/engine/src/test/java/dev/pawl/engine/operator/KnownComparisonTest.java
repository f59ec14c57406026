package dev.pawl.engine.operator;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Truth;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A comparison with a constant says what one with a number that happens not to change says, and is made again only
 * where it may come out anew.
 */
class GroundTest {
  private static final int STEPS = 3_000;
  private static final double BOUND = 10;

  private final Graph graph = new Graph();
  private final SignalState state = new SignalState(0);
  private final NumNode number = graph.add(new Inputs.NumSignal(state));
  private final NumNode constant = graph.add(new Inputs.NumConstant(BOUND));
  private final NumNode sameNumber = graph.add(new Numbers.Negate(graph.add(new Inputs.NumConstant(-BOUND))));

  /** Learns as {@link Numbers.Compare} does, and counts how often. */
  private final class Learner extends BoolNode {
    private final Comparison comparison;
    private KnownComparison known;
    private int evaluations;

    Learner(Comparison comparison) {
      this.comparison = comparison;
    }

    @Override
    protected void connect() {
      known = new KnownComparison(comparison, dependOnRange(number));
    }

    @Override
    public boolean update(long moment) {
      evaluations++;
      int truth = Numbers.truth(comparison, number.value, BOUND, 0);
      switch (truth) {
        case Truth.T -> known.holds(number.value);
        case Truth.F -> known.fails(number.value);
        default -> known.isUnclear();
      }
      return become(truth);
    }
  }

  private void set(long time, long value) {
    graph.advanceTo(Moments.of(time));
    state.value = value;
    if (number.update(Moments.of(time))) {
      graph.markDependents(number);
    }
    graph.evaluate(Moments.of(time));
  }

  private static long drawn(SplittableRandom random) {
    return random.nextInt(20) == 0 ? EventSink.UNKNOWN : Double.doubleToRawLongBits(random.nextInt(80) / 4.0);
  }

  @ParameterizedTest
  @EnumSource(Comparison.class)
  void saysWhatAnyComparisonSays(Comparison comparison) {
    for (double tolerance : new double[] {0, 0.5, 3}) {
      BoolNode quick = graph.add(new Numbers.Compare(comparison, number, constant, tolerance));
      BoolNode plain = graph.add(new Numbers.Compare(comparison, number, sameNumber, tolerance));
      graph.seal();
      SplittableRandom random = new SplittableRandom(17);
      for (int step = 0; step < STEPS; step++) {
        set(step, drawn(random));
        assertThat(quick.value).as("%s, tolerance %s, step %d", number.value, tolerance, step).isEqualTo(plain.value);
      }
    }
  }

  /** A bound that moves leaves no known to know. */
  @ParameterizedTest
  @EnumSource(Comparison.class)
  void doesNotRelyOnABoundThatMoves(Comparison comparison) {
    SignalState boundState = new SignalState(1);
    NumNode bound = graph.add(new Inputs.NumSignal(boundState));
    BoolNode compared = graph.add(new Numbers.Compare(comparison, number, bound, 0));
    graph.seal();
    SplittableRandom random = new SplittableRandom(18);
    for (int step = 0; step < STEPS; step++) {
      graph.advanceTo(Moments.of(step));
      boundState.value = drawn(random);
      if (bound.update(Moments.of(step))) {
        graph.markDependents(bound);
      }
      set(step, drawn(random));
      assertThat(compared.value).as("%s, %s", number.value, bound.value)
          .isEqualTo(Numbers.truth(comparison, number.value, bound.value, 0));
    }
  }

  /** Only where it turns, and where a value comes nearer to the bound than any before. */
  @ParameterizedTest
  @CsvSource({"LESS, 8", "AT_MOST, 8", "GREATER, 8", "AT_LEAST, 8"})
  void isMadeAgainWhereItMayComeOutAnew(Comparison comparison, int expected) {
    Learner learner = graph.add(new Learner(comparison));
    graph.seal();
    double[] values = {5, 3, 4, 2, 6, 1, 5, 8, 7, 8, 15, 17, 16, 12, 19, 12, 13, 7, 8, 2, 14, 12, 9, 8};
    for (int step = 0; step < values.length; step++) {
      set(step, Double.doubleToRawLongBits(values[step]));
    }

    assertThat(learner.evaluations).isEqualTo(expected);
  }
}
