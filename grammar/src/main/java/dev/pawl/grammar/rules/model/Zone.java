package dev.pawl.grammar.rules.model;

import dev.pawl.grammar.source.Position;
import java.util.OptionalInt;

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
public record Zone(int index, String name, Boundary entry, Boundary exit, double length, int holds, OptionalInt startsWith,
    Position position) {

  /** One end of a zone. */
  public sealed interface Boundary {}

  /** A single event that counts one train, with no direction. */
  public record Edge(BoolExpr event) implements Boundary {}

  /**
   * Two flags that give a direction.
   *
   * @param outer the flag outside the zone, true while a train covers it
   * @param inner the flag inside the zone
   */
  public record Pair(BoolExpr outer, BoolExpr inner) implements Boundary {}
}
