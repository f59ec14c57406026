package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.Optional;
import java.util.function.Function;

/** One clause that says what shows that a rule could have been broken. */
public sealed interface ProofClause {

  /** The answer for the one it is. */
  <R> R match(Function<ByTrigger, R> byTrigger, Function<ByEvent, R> byEvent, Function<Untried, R> untried);

  Position position();

  /** {@code tried by trigger}. */
  record ByTrigger(Position position) implements ProofClause {
    @Override
    public <R> R match(Function<ByTrigger, R> byTrigger, Function<ByEvent, R> byEvent, Function<Untried, R> untried) {
      return byTrigger.apply(this);
    }
  }

  /** {@code tried by E given Q}, for the whole rule or for what has to stay so. */
  record ByEvent(boolean ofStay, Expression event, Optional<Expression> given, Position position)
      implements ProofClause {
    @Override
    public <R> R match(Function<ByTrigger, R> byTrigger, Function<ByEvent, R> byEvent, Function<Untried, R> untried) {
      return byEvent.apply(this);
    }
  }

  /** {@code untried "why"}. */
  record Untried(Name reason, Position position) implements ProofClause {
    @Override
    public <R> R match(Function<ByTrigger, R> byTrigger, Function<ByEvent, R> byEvent, Function<Untried, R> untried) {
      return untried.apply(this);
    }
  }
}
