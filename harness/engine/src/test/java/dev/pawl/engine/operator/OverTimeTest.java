package dev.pawl.engine.operator;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The operators that look back have, at every moment, the value that {@code grammar/MEANING.md} defines, worked out here by a look at all
 * moments of the window. Their operands change at any moment, just after a time too, so that edges of windows and changes meet often.
 */
class OverTimeTest {
  private static final int MOMENTS = 50;
  private static final int ROUNDS = 80;
  private static final int[] TRUTHS = {Truth.F, Truth.T, Truth.F, Truth.T, Truth.U, Truth.B};

  private final SplittableRandom random = new SplittableRandom(14);
  private int[] p;
  private int[] q;
  private double[] x;
  private double[] y;
  private int span;

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
  private record Operands(Graph graph, BoolNode p, BoolNode q, NumNode x, NumNode y) {

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
      x[m] = m > 0 && random.nextInt(4) > 0 ? x[m - 1] : random.nextInt(12) < unknowns ? Double.NaN : random.nextInt(-2, 4);
      y[m] = m > 0 && random.nextInt(6) > 0 ? y[m - 1] : random.nextInt(12) < unknowns ? Double.NaN : random.nextInt(-2, 3) + 0.25;
    }
    span = 2 * random.nextInt(6);
  }

  private void agreeOnTruth(Function<Operands, BoolNode> maker, IntFunction<Integer> meaning) {
    for (int round = 0; round < ROUNDS; round++) {
      draw();
      int[] seen = new int[MOMENTS];
      run(maker, (node, m) -> seen[m] = node.value);
      int[] expected = new int[MOMENTS];
      Arrays.setAll(expected, meaning::apply);

      assertThat(seen).as(this::drawn).isEqualTo(expected);
    }
  }

  private void agreeOnNumber(Function<Operands, NumNode> maker, IntFunction<Double> meaning) {
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
    return "p " + Arrays.toString(p) + ", q " + Arrays.toString(q) + ", x " + Arrays.toString(x) + ", y " + Arrays.toString(y) + ", span " + span;
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

  private int windowStart(int m) {
    return Math.max(0, m - span);
  }

  private static boolean any(int[] table, int truth, int from, int to) {
    return Arrays.stream(table, from, to + 1).anyMatch(value -> value == truth);
  }

  private static boolean happens(int[] table, int m) {
    return table[m] == Truth.T && (m == 0 || table[m - 1] != Truth.T);
  }

  private static boolean possiblyHappens(int[] table, int m) {
    return Kleene.isUnknown(table[m]) && (m == 0 || !Kleene.isUnknown(table[m - 1]));
  }

  private static int last(int[] table, int m, boolean possibly) {
    int last = m;
    while (last >= 0 && !(possibly ? possiblyHappens(table, last) : happens(table, last))) {
      last--;
    }
    return last;
  }

  private double count(int from, int to) {
    double count = 0;
    for (int m = from; m <= to; m++) {
      count += happens(p, m) ? 1 : 0;
    }
    return last(p, to, true) >= from ? Double.NaN : count;
  }

  @Test
  void heldFor() {
    agreeOnTruth(on -> new Windows.HeldFor(on.p, span / 2), m -> {
      if (m - span < 0 || any(p, Truth.F, m - span, m)) {
        return Truth.F;
      }
      return any(p, Truth.U, m - span, m) ? Truth.U : any(p, Truth.B, m - span, m) ? Truth.B : Truth.T;
    });
  }

  @Test
  void inLast() {
    agreeOnTruth(on -> new Windows.InLast(on.p, span / 2), m -> {
      if (any(p, Truth.T, windowStart(m), m)) {
        return Truth.T;
      }
      return any(p, Truth.U, windowStart(m), m) ? Truth.U : any(p, Truth.B, windowStart(m), m) ? Truth.B : Truth.F;
    });
  }

  @Test
  void since() {
    agreeOnTruth(on -> new Windows.Since(on.p, on.q), this::since);
  }

  private int since(int m) {
    return m < 0 ? Truth.F : Kleene.or(q[m], Kleene.and(p[m], since(m - 1)));
  }

  @Test
  void countInLast() {
    agreeOnNumber(on -> new Counts.InLast(Event.of(on.p), span / 2), m -> count(windowStart(m), m));
  }

  @Test
  void countSince() {
    agreeOnNumber(on -> new Counts.Since(Event.of(on.p), Event.of(on.q)), m -> {
      int anchor = last(q, m, false);
      return anchor < 0 || last(q, m, true) >= anchor ? Double.NaN : count(anchor, m);
    });
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void extreme(boolean greatest) {
    agreeOnNumber(on -> new Extremes.Extreme(greatest, on.x, span / 2), m -> extreme(greatest, m));
  }

  @Test
  void swing() {
    agreeOnNumber(on -> new Extremes.Swing(on.x, span / 2), m -> extreme(true, m) - extreme(false, m));
  }

  private double extreme(boolean greatest, int m) {
    double found = x[m];
    for (int k = windowStart(m); k <= m; k++) {
      found = greatest ? Math.max(found, x[k]) : Math.min(found, x[k]);
    }
    return found;
  }

  /** A number over a window that only a comparison reads need not be right, as long as the comparison comes out right. */
  @ParameterizedTest
  @EnumSource
  void comparedOverAWindow(Comparison comparison) {
    for (double tolerance : List.of(0.0, 1.5)) {
      for (double limit : List.of(0.0, 1.0, 2.0)) {
        agreeOnTruth(on -> compare(on, comparison, new Counts.InLast(Event.of(on.p), span / 2), limit, tolerance),
            m -> Numbers.truth(comparison, count(windowStart(m), m), limit, tolerance));
        agreeOnTruth(on -> compare(on, comparison, new Extremes.Extreme(true, on.x, span / 2), limit, tolerance),
            m -> Numbers.truth(comparison, extreme(true, m), limit, tolerance));
        agreeOnTruth(on -> compare(on, comparison, new Extremes.Extreme(false, on.x, span / 2), limit, tolerance),
            m -> Numbers.truth(comparison, extreme(false, m), limit, tolerance));
        agreeOnTruth(on -> compare(on, comparison, new Extremes.Swing(on.x, span / 2), limit, tolerance),
            m -> Numbers.truth(comparison, extreme(true, m) - extreme(false, m), limit, tolerance));
      }
    }
  }

  private static Numbers.Compare compare(Operands on, Comparison comparison, NumNode number, double limit, double tolerance) {
    on.graph.add(number);
    return new Numbers.Compare(comparison, number, on.constant(limit), tolerance);
  }

  /** Half a nanosecond is a moment; the bound of 2.5 ns is five. */
  @ParameterizedTest
  @EnumSource
  void timeSince(Comparison comparison) {
    for (int tolerance : List.of(0, 1, 3)) {
      agreeOnTruth(on -> new TimeSinceCompare(comparison, Event.of(on.p),
          on.constant(2.5e-9), tolerance / 2e9), m -> {
        int happened = last(p, m, false);
        return happened < 0 || last(p, m, true) > happened ? Truth.U : Numbers.truth(comparison, m - happened, 5, tolerance);
      });
    }
  }

  /** The bound is a number of nanoseconds that moves, or is not known. */
  @ParameterizedTest
  @EnumSource
  void timeSinceWithABoundThatMoves(Comparison comparison) {
    agreeOnTruth(on -> new TimeSinceCompare(comparison, Event.of(on.p),
        on.graph.add(new Numbers.Arithmetic(NumExpr.Operator.MULTIPLY, on.x, on.constant(1e-9))), 0), m -> {
      int happened = last(p, m, false);
      boolean known = happened >= 0 && last(p, m, true) <= happened;
      return known ? Numbers.truth(comparison, m - happened, 2 * x[m], 0) : Truth.U;
    });
  }

  @ParameterizedTest
  @EnumSource
  void mean(Comparison comparison) {
    for (double tolerance : List.of(0.0, 0.5)) {
      agreeOnTruth(on -> new MeanCompare(comparison, on.x, span / 2,
          on.constant(0.5), tolerance), m -> Numbers.truth(comparison, mean(m), 0.5, tolerance));
    }
  }

  @ParameterizedTest
  @EnumSource
  void meanWithABoundThatMoves(Comparison comparison) {
    for (double tolerance : List.of(0.0, 0.5)) {
      agreeOnTruth(on -> new MeanCompare(comparison, on.x, span / 2, on.y, tolerance),
          m -> Numbers.truth(comparison, mean(m), y[m], tolerance));
    }
  }

  /** Two moments to the nanosecond, whose value in between is that of the odd one; a moment's own value has no extent. */
  private double mean(int m) {
    int from = windowStart(m);
    if (from == m) {
      return x[m];
    }
    double area = 0;
    for (int k = from; k <= m; k++) {
      double length = k % 2 == 0 ? 0 : Math.min(k + 1, m) - Math.max(k - 1, from);
      area += Double.isNaN(x[k]) ? Double.NaN : x[k] * length;
    }
    return area / (m - from);
  }
}
