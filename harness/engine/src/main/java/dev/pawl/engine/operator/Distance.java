package dev.pawl.engine.operator;

import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;
import java.util.List;
import java.util.stream.Stream;

/**
 * The distance of a condition to breaking, by its quantitative semantics: positive while it holds, NaN while a number
 * that it rests on is unknown. It is no node, but worked out when it is asked for, since most judges do so at few of
 * the moments at which it changes.
 */
public sealed interface Distance {

  /** What it is now, in the SI unit of its numbers. */
  double now();

  /** The numbers that it rests on. */
  List<NumNode> numbers();

  /** Of a single comparison. */
  record OfComparison(Comparison comparison, NumNode left, NumNode right) implements Distance {

    @Override
    public double now() {
      double distance = comparison.distance(left.value, right.value);
      return Double.isFinite(distance) ? distance : Double.NaN;
    }

    @Override
    public List<NumNode> numbers() {
      return List.of(left, right);
    }
  }

  /** Of {@code and} (the lesser) or {@code or} (the greater). */
  record OfPair(boolean greater, Distance left, Distance right) implements Distance {

    @Override
    public double now() {
      return greater ? Math.max(left.now(), right.now()) : Math.min(left.now(), right.now());
    }

    @Override
    public List<NumNode> numbers() {
      return Stream.of(left, right).flatMap(side -> side.numbers().stream()).toList();
    }
  }
}
