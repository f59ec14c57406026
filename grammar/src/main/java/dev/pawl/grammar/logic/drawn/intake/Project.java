package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/**
 * What a project holds, with bodies as they are drawn.
 *
 * @param declarations types and global variables
 * @param units programs, functions and function blocks
 */
public record Project(List<Declaration> declarations, List<Drawing> units) {

  public Project {
    declarations = List.copyOf(declarations);
    units = List.copyOf(units);
  }

  /**
   * A unit with its bodies.
   *
   * @param returns the type of a function's result
   * @param bodies its sheets, in their order
   * @param actions those with a body of their own
   */
  public record Drawing(Declaration.Kind kind, Name name, Optional<TypeSpecification> returns,
      List<VariableBlock> blocks, List<Body> bodies, List<Sequence.Action> actions, Position position) {
    public Drawing {
      blocks = List.copyOf(blocks);
      bodies = List.copyOf(bodies);
      actions = List.copyOf(actions);
    }
  }
}
