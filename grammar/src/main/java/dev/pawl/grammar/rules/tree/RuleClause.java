package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** One clause of a rule's header. */
public sealed interface RuleClause {

  Position position();

  /** The word it begins with. */
  String word();

  /** Where the requirement comes from: a source, or common practice with or without a remark. */
  record Basis(boolean practice, Optional<Name> text, Position position) implements RuleClause {
    @Override
    public String word() {
      return "basis";
    }
  }

  record Severity(Name level, Position position) implements RuleClause {
    @Override
    public String word() {
      return "severity";
    }
  }

  record Tolerance(Expression amount, Position position) implements RuleClause {
    @Override
    public String word() {
      return "tolerance";
    }
  }

  record Resolution(Expression duration, Position position) implements RuleClause {
    @Override
    public String word() {
      return "resolution";
    }
  }

  /** The requirements that it serves. */
  record Satisfies(List<Name> requirements, Position position) implements RuleClause {
    @Override
    public String word() {
      return "satisfies";
    }
  }
}
