package dev.pawl.engine.operator;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.function.IntFunction;

/**
 * Tables of what operands are at every moment, and runs of a node over them. The operands change at any moment, just
 * after a time too, so that edges of windows and changes meet often.
 */
abstract class OverTime {
  static final int MOMENTS = 50;
  private static final int ROUNDS = 80;
  private static final int[] TRUTHS = {Truth.F, Truth.T, Truth.F, Truth.T, Truth.U, Truth.B};

  private final SplittableRandom random = new SplittableRandom(14);
  int[] p;
  int[] q;
  double[] x;
  double[] y;
  int span;

  /** Has, at every moment, the value that a table says. */
  private static final class Flag extends BoolNode {
    private final int[] table;
    private final long start;

    Flag(int[] table, long start) {
      this.table = table;
      this.start = start;
    }

    @Override
    protected void connect() {}

    @Override
    public boolean update(long moment) {
      return become(table[(int) (moment - start)]);
    }
  }

  /** A number that a table says. */
  private static final class Figure extends NumNode {
    private final double[] table;
    private final long start;

    Figure(double[] table, long start) {
      this.table = table;
      this.start = start;
    }

    @Override
    protected void connect() {}

    @Override
    public boolean update(long moment) {
      return become(table[(int) (moment - start)]);
    }
  }

  /** Operands with the tables {@code p}, {@code q}, {@code x} and {@code y}. */
  record Operands(Graph graph, BoolNode p, BoolNode q, NumNode x, NumNode y) {

    /** The event that an operand becomes true; all begin with the trace. */
    Event event(BoolNode operand) {
      return Event.of(operand, graph.add(new Begun(new SignalState[0])));
    }

    NumNode constant(double value) {
      return graph.add(new Inputs.NumConstant(value));
    }
  }

  private void draw() {
    p = new int[MOMENTS];
    q = new int[MOMENTS];
    x = new double[MOMENTS];
    y = new double[MOMENTS];
    int unknowns = random.nextInt(3);
    for (int m = 0; m < MOMENTS; m++) {
      p[m] = m > 0 && random.nextInt(4) > 0 ? p[m - 1] : TRUTHS[random.nextInt(4 + unknowns)];
      q[m] = m > 0 && random.nextInt(4) > 0 ? q[m - 1] : TRUTHS[random.nextInt(4 + unknowns)];
      x[m] = m > 0 && random.nextInt(4) > 0 ? x[m - 1] : random.nextInt(12) < unknowns ? Double.NaN
          : random.nextInt(-2, 4);
      y[m] = m > 0 && random.nextInt(6) > 0 ? y[m - 1] : random.nextInt(12) < unknowns ? Double.NaN
          : random.nextInt(-2, 3) + 0.25;
    }
    span = 2 * random.nextInt(6);
  }

  final void agreeOnTruth(Function<Operands, BoolNode> maker, IntFunction<Integer> meaning) {
    for (int round = 0; round < ROUNDS; round++) {
      draw();
      int[] seen = new int[MOMENTS];
      run(maker, (node, m) -> seen[m] = node.value);
      int[] expected = new int[MOMENTS];
      Arrays.setAll(expected, meaning::apply);

      assertThat(seen).as(this::drawn).isEqualTo(expected);
    }
  }

  final void agreeOnNumber(Function<Operands, NumNode> maker, IntFunction<Double> meaning) {
    for (int round = 0; round < ROUNDS; round++) {
      draw();
      double[] seen = new double[MOMENTS];
      run(maker, (node, m) -> seen[m] = node.value);
      double[] expected = new double[MOMENTS];
      Arrays.setAll(expected, meaning::apply);

      assertThat(seen).as(this::drawn).isEqualTo(expected);
    }
  }

  private String drawn() {
    return "p " + Arrays.toString(p) + ", q " + Arrays.toString(q) + ", x " + Arrays.toString(x) + ", y "
        + Arrays.toString(y) + ", span " + span;
  }

  /** Looks at a node after a moment has been evaluated. */
  private interface Look<N> {
    void at(N node, int moment);
  }

  private <N extends Node> void run(Function<Operands, N> maker, Look<N> look) {
    long start = 2L * random.nextInt(-100, 100);
    Graph graph = new Graph();
    Operands operands = new Operands(graph, graph.add(new Flag(p, start)), graph.add(new Flag(q, start)),
        graph.add(new Figure(x, start)), graph.add(new Figure(y, start)));
    N node = graph.add(maker.apply(operands));
    graph.seal();
    graph.advanceTo(start);
    for (int m = 0; m < MOMENTS; m++) {
      graph.runBefore(start + m);
      markChanged(operands, m);
      graph.evaluate(start + m);
      look.at(node, m);
    }
  }

  private void markChanged(Operands operands, int m) {
    if (m > 0 && p[m] != p[m - 1]) {
      operands.graph.mark(operands.p);
    }
    if (m > 0 && q[m] != q[m - 1]) {
      operands.graph.mark(operands.q);
    }
    if (m > 0 && Double.compare(x[m], x[m - 1]) != 0) {
      operands.graph.mark(operands.x);
    }
    if (m > 0 && Double.compare(y[m], y[m - 1]) != 0) {
      operands.graph.mark(operands.y);
    }
  }

  final int windowStart(int m) {
    return Math.max(0, m - span);
  }

  static boolean any(int[] table, int truth, int from, int to) {
    return Arrays.stream(table, from, to + 1).anyMatch(value -> value == truth);
  }

  static boolean happens(int[] table, int m) {
    return m > 0 && table[m] == Truth.T && table[m - 1] == Truth.F;
  }

  static boolean possiblyHappens(int[] table, int m) {
    return m > 0 && Kleene.isUnknown(Kleene.and(table[m], Kleene.not(table[m - 1])));
  }

  static int last(int[] table, int m, boolean possibly) {
    int last = m;
    while (last >= 0 && !(possibly ? possiblyHappens(table, last) : happens(table, last))) {
      last--;
    }
    return last;
  }

  final double count(int from, int to) {
    double count = 0;
    for (int m = from; m <= to; m++) {
      count += happens(p, m) ? 1 : 0;
    }
    return last(p, to, true) >= from ? Double.NaN : count;
  }
}
