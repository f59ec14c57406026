package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** What a rule requires, as written. */
public sealed interface Duty {

  Position position();

  List<Scope> scopes();

  record When(Expression trigger, List<Scope> scopes, Demand demand, Position position) implements Duty {}

  /** {@code always P} and {@code never P}. */
  record Everywhere(boolean never, Expression condition, List<Scope> scopes, Position position) implements Duty {}

  /** {@code while q} and {@code unless q}. */
  record Scope(boolean whilst, Expression condition, Position position) {}

  record Demand(Expression required, Optional<Timing> timing, Optional<Stay> stay, Position position) {}

  /** By when, or for how long. */
  sealed interface Timing {
    Position position();
  }

  /** {@code after D1}, {@code within D2}, or both. */
  record Within(Optional<Expression> after, Optional<Expression> within, Position position) implements Timing {}

  record Throughout(Optional<Expression> after, Expression duration, Position position) implements Timing {}

  record Before(Expression limit, Position position) implements Timing {}

  /** What follows once the required condition has become true. */
  sealed interface Stay {
    Position position();
  }

  record StayFor(Expression duration, Position position) implements Stay {}

  record StayUntil(Expression release, Position position) implements Stay {}
}
