package dev.pawl.grammar.rules.model;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * A stretch of track whose occupancy the tool works out from its flags.
 *
 * @param index its number in the rule book, from 0
 * @param name its name
 * @param entry how trains come in
 * @param exit how trains go out
 * @param length metres, or NaN where not stated
 * @param holds greatest number of trains it may hold, at least 1
 * @param startsWith trains in it at the start of the trace; empty where unknown until proven
 * @param position where it is declared
 */
public record Zone(int index, String name, Boundary entry, Boundary exit, double length, int holds,
    OptionalInt startsWith, Position position) {

  /** The conditions at both its ends. */
  public List<BoolExpr> conditions() {
    return Stream.concat(entry.conditions().stream(), exit.conditions().stream()).toList();
  }

  /** One end of a zone. */
  public sealed interface Boundary {
    List<BoolExpr> conditions();

    /** What tells where a train is: both flags of a pair, and of a single event what rises or falls in it. */
    List<BoolExpr> flags();

    /** The answer for the one it is. */
    <R> R match(Function<Edge, R> edge, Function<Pair, R> pair);
  }

  /** A single event that counts one train, with no direction. */
  public record Edge(BoolExpr event) implements Boundary {
    @Override public List<BoolExpr> conditions() { return List.of(event); }
    @Override public List<BoolExpr> flags() { return List.of(WithoutEdges.of(event)); }
    @Override public <R> R match(Function<Edge, R> edge, Function<Pair, R> pair) { return edge.apply(this); }
  }

  /**
   * Two flags that give a direction.
   *
   * @param outer the flag outside the zone, true while a train covers it
   * @param inner the flag inside the zone
   */
  public record Pair(BoolExpr outer, BoolExpr inner) implements Boundary {
    @Override public List<BoolExpr> conditions() { return List.of(outer, inner); }
    @Override public List<BoolExpr> flags() { return conditions(); }
    @Override public <R> R match(Function<Edge, R> edge, Function<Pair, R> pair) { return pair.apply(this); }
  }
}
