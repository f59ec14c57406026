package dev.pawl.engine.graph;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** A number that time makes less is evaluated for that where somebody minds, and not where nobody does. */
class SubsidingTest {
  private static final double LEAST = Double.NEGATIVE_INFINITY;
  private static final double MOST = Double.POSITIVE_INFINITY;

  private final Graph graph = new Graph();

  /** Is set to a number, from which it falls by one at every tenth moment as long as it is not zero. */
  private static final class Falling extends LaggingNumber {
    private double height;
    private long since;
    private int evaluations;

    Falling() {
      super(true);
    }

    @Override
    public boolean update(long moment) {
      evaluations++;
      height -= Math.min(height, (moment - since) / 10);
      since += (moment - since) / 10 * 10;
      return become(height, height > 0 ? since + 10 : Moments.FOREVER);
    }

    void set(double to, long moment) {
      height = to;
      since = moment;
      graph.mark(this);
    }
  }

  /** Reads the number, in one way or the other, and says what it is told to say of what it minds. */
  private final class Reader extends Node {
    private final boolean follows;
    private RangeDependency dependency;

    Reader(boolean follows) {
      this.follows = follows;
    }

    @Override
    protected void connect() {
      if (follows) {
        dependOn(number);
      } else {
        dependency = dependOnRange(number);
      }
    }

    @Override
    public boolean update(long moment) {
      return false;
    }
  }

  private final Falling number = graph.add(new Falling());

  private void run(long to) {
    graph.runBefore(to);
  }

  private void begin(double height) {
    graph.seal();
    graph.advanceTo(0);
    number.set(height, 0);
    run(1);
  }

  @Test
  void lagsWhereAllIgnoreThatItFalls() {
    Reader one = graph.add(new Reader(false));
    Reader other = graph.add(new Reader(false));
    begin(5);
    one.dependency.ignore(LEAST, 7);
    other.dependency.ignore(LEAST, 5);
    run(12);

    assertThat(number.value).as("a timer was set before it was ignored").isEqualTo(4);

    run(1_000);
    assertThat(number.value).isEqualTo(4);
    assertThat(number.evaluations).isEqualTo(2);
  }

  @Test
  void catchesUpAtTheNextMomentWhenSomebodyMindsAgain() {
    Reader reader = graph.add(new Reader(false));
    begin(5);
    reader.dependency.ignore(LEAST, 5);
    run(38);
    graph.evaluate(38);
    assertThat(number.value).isEqualTo(4);

    reader.dependency.ignore(LEAST, MOST);
    run(40);
    assertThat(number.value).as("nothing ignored but all").isEqualTo(2);

    run(51);
    assertThat(number.value).isZero();
    assertThat(number.evaluations).isEqualTo(5);
  }

  @Test
  void doesNotLagForThoseWhoIgnoreThatItRises() {
    Reader reader = graph.add(new Reader(false));
    begin(2);
    reader.dependency.ignore(2, MOST);
    run(100);

    assertThat(number.value).isZero();
  }

  @Test
  void doesNotLagForANodeThatFollowsIt() {
    Reader reader = graph.add(new Reader(false));
    graph.add(new Reader(true));
    begin(2);
    reader.dependency.ignore(LEAST, 2);
    run(100);

    assertThat(number.value).isZero();
  }

  @Test
  void doesNotLagWhereNobodyHasSaidWhatHeMinds() {
    begin(2);
    run(100);

    assertThat(number.value).isZero();
  }

  @Test
  void isEvaluatedOnceForSeveralWhoMindAgain() {
    Reader one = graph.add(new Reader(false));
    Reader other = graph.add(new Reader(false));
    begin(1);
    one.dependency.ignore(LEAST, 1);
    other.dependency.ignore(LEAST, 1);
    number.set(1, 4);
    graph.evaluate(4);
    int before = number.evaluations;
    one.dependency.mindAll();
    other.dependency.mindAll();
    run(100);

    assertThat(number.evaluations - before).as("right after, and when it falls").isEqualTo(2);
    assertThat(number.value).isZero();
  }
}
