package dev.pawl.engine.graph;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.model.Truth;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Nodes are evaluated at the moments at which something they depend on changes or at which they asked to be, and at no
 * others.
 */
class GraphTest {
  private final Graph graph = new Graph();

  /** A truth value that the test sets. */
  private static final class Source extends BoolNode {
    private int next = Truth.F;

    @Override
    protected void connect() {}

    @Override
    public boolean update(long moment) {
      return become(next);
    }
  }

  /** Remembers when it was evaluated. */
  private static final class Probe extends Node {
    private final BoolNode input;
    private final boolean mindful;
    private final List<Long> evaluated = new ArrayList<>();

    Probe(BoolNode input, boolean mindful) {
      this.input = input;
      this.mindful = mindful;
    }

    @Override
    protected void connect() {
      if (mindful) {
        dependOn(input);
      } else {
        dependOnRise(input);
      }
    }

    @Override
    public boolean update(long moment) {
      evaluated.add(moment);
      return false;
    }

    void listen(boolean on) {
      heed(input, on);
    }
  }

  private final Source source = graph.add(new Source());
  private final Probe probe = graph.add(new Probe(source, true));
  private final Probe other = graph.add(new Probe(source, false));

  private void begin() {
    graph.seal();
    graph.advanceTo(0);
    graph.evaluate(0);
    probe.evaluated.clear();
    other.evaluated.clear();
  }

  private void change(int truth, long moment) {
    source.next = truth;
    graph.mark(source);
    graph.evaluate(moment);
  }

  @Test
  void wakesANodeOnceAtTheMomentItAskedFor() {
    begin();
    graph.wake(probe, 9);
    graph.wake(probe, 7);
    graph.runBefore(7);
    assertThat(probe.evaluated).isEmpty();

    graph.runBefore(20);
    assertThat(probe.evaluated).containsExactly(7L);
    assertThat(other.evaluated).isEmpty();
  }

  @Test
  void knowsWhetherAnythingIsToBeEvaluatedBeforeALimit() {
    begin();
    assertThat(graph.isDueBefore(Moments.FOREVER)).isFalse();

    graph.advanceTo(4);
    graph.wakeAfter(probe);
    assertThat(graph.isDueBefore(6)).isTrue();
    assertThat(graph.isDueBefore(5)).isFalse();
    graph.runBefore(6);
    assertThat(graph.isDueBefore(Moments.FOREVER)).isFalse();

    graph.wake(probe, 9);
    assertThat(graph.isDueBefore(10)).isTrue();
    assertThat(graph.isDueBefore(9)).isFalse();

    graph.mark(probe);
    assertThat(graph.isDueBefore(7)).isTrue();
  }

  @Test
  void wakesTheFirstNodeToo() {
    begin();
    source.next = Truth.T;
    graph.wake(source, 7);
    graph.runBefore(20);

    assertThat(probe.evaluated).containsExactly(7L);
  }

  @Test
  void forgetsATimerThatIsTakenBack() {
    begin();
    graph.wake(probe, 7);
    graph.wake(probe, Moments.FOREVER);
    graph.runBefore(20);

    assertThat(probe.evaluated).isEmpty();
  }

  @Test
  void wakesANodeRightAfterAMomentAndNotAgainWithTheNextThatAsks() {
    begin();
    graph.advanceTo(4);
    graph.wakeAfter(probe);
    graph.runBefore(10);
    graph.advanceTo(12);
    graph.wakeAfter(other);
    graph.runBefore(20);

    assertThat(probe.evaluated).containsExactly(5L);
    assertThat(other.evaluated).containsExactly(13L);
  }

  @Test
  void letsAMomentaryNodeFallBackAndTellsOnlyThoseThatMind() {
    begin();
    change(Truth.T, 4);
    graph.raise(source);
    graph.runBefore(10);

    assertThat(source.value).isEqualTo(Truth.F);
    assertThat(probe.evaluated).containsExactly(4L, 5L);
    assertThat(other.evaluated).containsExactly(4L);
  }

  @Test
  void doesNotEvaluateANodeThatHasStoppedListening() {
    begin();
    probe.listen(false);
    change(Truth.T, 2);
    probe.listen(true);
    change(Truth.F, 4);
    change(Truth.F, 6);

    assertThat(probe.evaluated).containsExactly(4L);
    assertThat(other.evaluated).containsExactly(2L, 4L);
  }

  /** One that has stopped listening is not told of a falling back either. */
  @Test
  void tellsNobodyOfAFallingBackWhoHasStoppedListening() {
    begin();
    change(Truth.T, 2);
    graph.raise(source);
    probe.listen(false);
    graph.runBefore(4);
    change(Truth.T, 6);
    graph.raise(source);
    graph.runBefore(10);

    assertThat(probe.evaluated).containsExactly(2L, 3L);
  }

  /** Two hundred nodes, so that marks lie in several words, each depending on the two before it. */
  @Test
  void evaluatesEveryNodeOnceAMomentAfterWhatItDependsOn() {
    List<Probe> probes = new ArrayList<>();
    List<Source> sources = new ArrayList<>();
    for (int i = 0; i < 100; i++) {
      Source added = graph.add(new Source());
      sources.add(added);
      probes.add(graph.add(new Probe(sources.get(i / 2), true)));
    }
    begin();
    probes.forEach(each -> each.evaluated.clear());
    for (int i = 0; i < 100; i++) {
      sources.get(i).next = Truth.T;
      graph.mark(sources.get(i));
      graph.evaluate(2L * i + 2);
    }
    for (int i = 0; i < 100; i++) {
      assertThat(probes.get(i).evaluated).as("probe %d", i).containsExactly(2L * (i / 2) + 2);
    }
  }
}
