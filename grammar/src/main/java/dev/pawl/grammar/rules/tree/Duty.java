package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** What a rule requires, as written. */
public sealed interface Duty {

  /** The answer for the one it is. */
  <R> R match(Function<When, R> when, Function<Everywhere, R> everywhere);

  List<Scope> scopes();

  record When(Expression trigger, List<Scope> scopes, Demand demand, Position position) implements Duty {
    @Override
    public <R> R match(Function<When, R> when, Function<Everywhere, R> everywhere) {
      return when.apply(this);
    }
  }

  /** {@code always P} and {@code never P}. */
  record Everywhere(boolean never, Expression condition, List<Scope> scopes, Position position) implements Duty {
    @Override
    public <R> R match(Function<When, R> when, Function<Everywhere, R> everywhere) {
      return everywhere.apply(this);
    }
  }

  /** {@code while q} and {@code unless q}. */
  record Scope(boolean whilst, Expression condition, Position position) {}

  record Demand(Expression required, Optional<Timing> timing, Optional<Stay> stay, Position position) {}

  /** By when, or for how long. */
  sealed interface Timing {

    /** The answer for the one it is. */
    <R> R match(Function<Within, R> within, Function<Throughout, R> throughout, Function<Before, R> before);
  }

  /** {@code after D1}, {@code within D2}, or both. */
  record Within(Optional<Expression> after, Optional<Expression> within, Position position) implements Timing {
    @Override
    public <R> R match(Function<Within, R> within, Function<Throughout, R> throughout, Function<Before, R> before) {
      return within.apply(this);
    }
  }

  record Throughout(Optional<Expression> after, Expression duration, Position position) implements Timing {
    @Override
    public <R> R match(Function<Within, R> within, Function<Throughout, R> throughout, Function<Before, R> before) {
      return throughout.apply(this);
    }
  }

  record Before(Expression limit, Position position) implements Timing {
    @Override
    public <R> R match(Function<Within, R> within, Function<Throughout, R> throughout, Function<Before, R> before) {
      return before.apply(this);
    }
  }

  /** What follows once the required condition has become true. */
  sealed interface Stay {

    /** The answer for the one it is. */
    <R> R match(Function<StayFor, R> stayFor, Function<StayUntil, R> until);

    Position position();
  }

  record StayFor(Expression duration, Position position) implements Stay {
    @Override
    public <R> R match(Function<StayFor, R> stayFor, Function<StayUntil, R> until) {
      return stayFor.apply(this);
    }
  }

  record StayUntil(Expression release, Position position) implements Stay {
    @Override
    public <R> R match(Function<StayFor, R> stayFor, Function<StayUntil, R> until) {
      return until.apply(this);
    }
  }
}
