package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** One clause of a rule's header. */
public sealed interface RuleClause {

  /** The answer for the one it is. */
  <R> R match(Function<Basis, R> basis, Function<Severity, R> severity, Function<Tolerance, R> tolerance,
      Function<Resolution, R> resolution, Function<Satisfies, R> satisfies);

  Position position();

  /** The word it begins with. */
  String word();

  /** Where the requirement comes from: a source, or common practice with or without a remark. */
  record Basis(boolean practice, Optional<Name> text, Position position) implements RuleClause {
    @Override
    public String word() {
      return "basis";
    }

    @Override
    public <R> R match(Function<Basis, R> basis, Function<Severity, R> severity, Function<Tolerance, R> tolerance,
        Function<Resolution, R> resolution, Function<Satisfies, R> satisfies) {
      return basis.apply(this);
    }
  }

  record Severity(Name level, Position position) implements RuleClause {
    @Override
    public String word() {
      return "severity";
    }

    @Override
    public <R> R match(Function<Basis, R> basis, Function<Severity, R> severity, Function<Tolerance, R> tolerance,
        Function<Resolution, R> resolution, Function<Satisfies, R> satisfies) {
      return severity.apply(this);
    }
  }

  record Tolerance(Expression amount, Position position) implements RuleClause {
    @Override
    public String word() {
      return "tolerance";
    }

    @Override
    public <R> R match(Function<Basis, R> basis, Function<Severity, R> severity, Function<Tolerance, R> tolerance,
        Function<Resolution, R> resolution, Function<Satisfies, R> satisfies) {
      return tolerance.apply(this);
    }
  }

  record Resolution(Expression duration, Position position) implements RuleClause {
    @Override
    public String word() {
      return "resolution";
    }

    @Override
    public <R> R match(Function<Basis, R> basis, Function<Severity, R> severity, Function<Tolerance, R> tolerance,
        Function<Resolution, R> resolution, Function<Satisfies, R> satisfies) {
      return resolution.apply(this);
    }
  }

  /** The requirements that it serves. */
  record Satisfies(List<Name> requirements, Position position) implements RuleClause {
    @Override
    public String word() {
      return "satisfies";
    }

    @Override
    public <R> R match(Function<Basis, R> basis, Function<Severity, R> severity, Function<Tolerance, R> tolerance,
        Function<Resolution, R> resolution, Function<Satisfies, R> satisfies) {
      return satisfies.apply(this);
    }
  }
}
