package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.advice.StaticTruth;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.ZoneClause;
import dev.pawl.grammar.source.Position;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** Zones: each clause at most once, both ends stated, and every count in reason. */
final class ZoneChecker {

  private static final int MOST_TRAINS = 1000;

  private final Context context;
  private final ExpressionChecker expressions;

  ZoneChecker(Context context) {
    this.context = context;
    this.expressions = new ExpressionChecker(context);
  }

  /** The zone, or nothing where something is wrong with it, which is told. */
  Optional<Zone> check(int index, Declaration.Zone zone) {
    Map<String, ZoneClause> clauses = new HashMap<>();
    for (ZoneClause clause : zone.clauses()) {
      if (clauses.putIfAbsent(clause.word(), clause) != null) {
        context.problems.error(clause.position(), "`" + clause.word() + "` is stated twice for this zone");
      }
    }
    Optional<Zone.Boundary> entry = boundary(zone, clauses, "enter");
    Optional<Zone.Boundary> exit = boundary(zone, clauses, "leave");
    double length = clauses.get("length") instanceof ZoneClause.Length stated
        ? expressions.length(stated.length()).orElse(Double.NaN) : Double.NaN;
    int holds = clauses.get("holds") instanceof ZoneClause.Holds stated ? trains(stated.trains(), stated.position(), 1)
        : 1;
    OptionalInt startsWith = clauses.get("starts with") instanceof ZoneClause.StartsWith stated
        ? OptionalInt.of(trains(stated.trains(), stated.position(), 0)) : OptionalInt.empty();
    if (startsWith.isPresent() && startsWith.getAsInt() > holds) {
      context.problems.error(clauses.get("starts with").position(), "the zone starts with more trains than it holds ("
          + holds + ")");
    }
    if (entry.isEmpty() || exit.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new Zone(index, zone.name().text(), entry.get(), exit.get(), length, holds, startsWith,
        zone.name().position()));
  }

  private Optional<Zone.Boundary> boundary(Declaration.Zone zone, Map<String, ZoneClause> clauses, String word) {
    if (!(clauses.get(word) instanceof ZoneClause.Boundary boundary)) {
      context.problems.error(zone.name().position(), "zone `" + zone.name().text() + "` does not say how trains " + word
          + " it", "write " + word + " rises(flag), or with two flags: " + word + " first then second");
      return Optional.empty();
    }
    Optional<Checked.Condition> first = expressions.condition(boundary.first());
    if (boundary.second().isEmpty()) {
      return first.flatMap(event -> edge(event.expression(), boundary.first().position()));
    }
    Optional<Checked.Condition> second = expressions.condition(boundary.second().get());
    if (first.isEmpty() || second.isEmpty()) {
      return Optional.empty();
    }
    if (first.get().expression().equals(second.get().expression())) {
      context.problems.error(boundary.second().get().position(), "both flags are the same, so they give no direction");
    }
    return Optional.of(boundary.entry()
        ? new Zone.Pair(first.get().expression(), second.get().expression())
        : new Zone.Pair(second.get().expression(), first.get().expression()));
  }

  private Optional<Zone.Boundary> edge(BoolExpr event, Position position) {
    if (!StaticTruth.isMomentary(event)) {
      context.problems.error(position, "a train is counted at an event, but this may stay true",
          "write rises(...) or falls(...), or with two flags: first then second");
      return Optional.empty();
    }
    return Optional.of(new Zone.Edge(event));
  }

  private int trains(String digits, Position position, int least) {
    double number = Double.parseDouble(digits);
    if (number != Math.rint(number) || number < least || number > MOST_TRAINS) {
      context.problems.error(position, "a whole number of trains from " + least + " to " + MOST_TRAINS
          + " was expected");
      return least;
    }
    return (int) number;
  }
}
