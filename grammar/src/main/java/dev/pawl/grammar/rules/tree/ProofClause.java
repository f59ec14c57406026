package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.Optional;

/** One clause that says what shows that a rule could have been broken. */
public sealed interface ProofClause {

  Position position();

  /** {@code tried by trigger}. */
  record ByTrigger(Position position) implements ProofClause {}

  /** {@code tried by E given Q}, for the whole rule or for what has to stay so. */
  record ByEvent(boolean ofStay, Expression event, Optional<Expression> given, Position position)
      implements ProofClause {}

  /** {@code untried "why"}. */
  record Untried(Name reason, Position position) implements ProofClause {}
}
