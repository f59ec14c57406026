package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/**
 * One VAR section with its qualifiers.
 *
 * @param list the name of a list of global variables, where it has one of its own
 */
public record VariableBlock(Section section, boolean constant, boolean retain, List<Variables> declarations,
    Position position, Optional<String> list) {

  public VariableBlock {
    declarations = List.copyOf(declarations);
  }

  /** A section without a name. */
  public VariableBlock(Section section, boolean constant, boolean retain, List<Variables> declarations,
      Position position) {
    this(section, constant, retain, declarations, position, Optional.empty());
  }

  /** The sections of variables; the constants are the words of the language. */
  public enum Section {
    VAR,
    VAR_INPUT,
    VAR_OUTPUT,
    VAR_IN_OUT,
    VAR_TEMP,
    VAR_GLOBAL,
    VAR_EXTERNAL
  }

  /**
   * {@code names AT address : specification edge := initial;}.
   *
   * @param edge of which the variable holds but the edges: the standard block that finds them
   */
  public record Variables(List<Name> names, Optional<Name> address, TypeSpecification specification,
      Optional<Edge> edge, Optional<Initializer> initial) {
    public Variables {
      names = List.copyOf(names);
    }

    /** Variables that hold more than edges. */
    public Variables(List<Name> names, Optional<Name> address, TypeSpecification specification,
        Optional<Initializer> initial) {
      this(names, address, specification, Optional.empty(), initial);
    }
  }

  /** The edge of an input that is true for one call only. */
  public enum Edge {
    R_EDGE,
    F_EDGE
  }
}
