package dev.pawl.engine.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** A node that looks out over a number is evaluated for the changes that it minds, and for no others. */
class RangeDependencyTest {
  private static final int MOMENTS = 5_000;

  private final Graph graph = new Graph();
  private final Source source = graph.add(new Source());
  private long now;

  /** A number that the test sets. */
  private static final class Source extends NumNode {
    private double next = Double.NaN;

    @Override
    public boolean update(long moment) {
      return become(next);
    }
  }

  /** Counts its evaluations. */
  private final class Watcher extends Node {
    private RangeDependency dependency;
    private int evaluations;

    @Override
    protected void connect() {
      dependency = dependOnRange(source);
    }

    @Override
    public boolean update(long moment) {
      evaluations++;
      return false;
    }
  }

  private final Watcher watcher = graph.add(new Watcher());

  private void begin(double value) {
    graph.seal();
    source.next = value;
    graph.evaluate(0);
  }

  /** Sets the number, and says how often that evaluates the watcher. */
  private int evaluationsFor(double value) {
    int before = watcher.evaluations;
    source.next = value;
    graph.mark(source);
    graph.evaluate(++now);
    return watcher.evaluations - before;
  }

  @Test
  void mindsEveryChangeUntilItSaysOtherwise() {
    begin(5);

    assertThat(List.of(evaluationsFor(6), evaluationsFor(6), evaluationsFor(Double.NaN), evaluationsFor(-1)))
        .containsExactly(1, 0, 1, 1);
  }

  @Test
  void ignoresTheRangeThatItStatesItsEndsIncluded() {
    begin(5);
    watcher.dependency.ignore(0, 9);

    assertThat(List.of(evaluationsFor(9), evaluationsFor(0), evaluationsFor(3), evaluationsFor(-0.5)))
        .containsExactly(0, 0, 0, 1);
    watcher.dependency.ignore(-1, 9);
    assertThat(List.of(evaluationsFor(-1), evaluationsFor(9.5))).containsExactly(0, 1);
  }

  @Test
  void alwaysMindsUnknown() {
    begin(5);
    watcher.dependency.ignore(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);

    assertThat(List.of(evaluationsFor(1e300), evaluationsFor(Double.NaN), evaluationsFor(7))).containsExactly(0, 1, 0);
  }

  @Test
  void mindsEverythingAgain() {
    begin(5);
    watcher.dependency.ignore(0, 9);
    watcher.dependency.mindAll();

    assertThat(evaluationsFor(6)).isEqualTo(1);
  }

  /** Each minds its own range, whatever the others mind, and whenever they say so. */
  @Test
  void isNotDisturbedByOthers() {
    List<Watcher> watchers = Stream.generate(() -> graph.add(new Watcher())).limit(4).toList();
    begin(50);
    SplittableRandom random = new SplittableRandom(7);
    double[][] ranges = new double[watchers.size()][];
    int heard = 0;
    for (int moment = 0; moment < MOMENTS; moment++) {
      int one = random.nextInt(watchers.size());
      if (ranges[one] == null || random.nextInt(3) == 0) {
        ranges[one] = new double[] {source.value - random.nextInt(60), source.value + random.nextInt(60)};
        watchers.get(one).dependency.ignore(ranges[one][0], ranges[one][1]);
      }
      double value = random.nextInt(100);
      int[] before = watchers.stream().mapToInt(each -> each.evaluations).toArray();
      boolean changes = value != source.value;
      evaluationsFor(value);
      for (int each = 0; each < before.length; each++) {
        boolean minds = changes && (ranges[each] == null || value < ranges[each][0] || value > ranges[each][1]);
        assertThat(watchers.get(each).evaluations - before[each]).as("evaluations of %d for %s", each, value)
            .isEqualTo(minds ? 1 : 0);
        heard += minds ? 1 : 0;
      }
    }
    assertThat(heard).isBetween(MOMENTS, 3 * MOMENTS);
  }
}
