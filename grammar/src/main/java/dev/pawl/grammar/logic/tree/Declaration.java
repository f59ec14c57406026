package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** A declaration at the top of a source. */
public sealed interface Declaration {

  /** {@code name : specification := initial;} of a TYPE block. */
  record TypeDeclaration(Name name, TypeSpecification specification, Optional<Initializer> initial)
      implements Declaration {}

  /** A VAR_GLOBAL block (or, wrongly, another section) outside of any program organization unit. */
  record Globals(VariableBlock block) implements Declaration {}

  /**
   * A program organization unit.
   *
   * @param returns the type of a function's result
   * @param end where its END_ word stands
   */
  record Unit(Kind kind, Name name, Optional<TypeSpecification> returns, List<VariableBlock> blocks,
      List<Statement> body, Position end) implements Declaration {
    public Unit {
      blocks = List.copyOf(blocks);
      body = List.copyOf(body);
    }
  }

  /** The three kinds of program organization units. */
  enum Kind {
    PROGRAM,
    FUNCTION,
    FUNCTION_BLOCK
  }
}
