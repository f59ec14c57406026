package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** One VAR section with its qualifiers. */
public record VariableBlock(Section section, boolean constant, boolean retain, List<Variables> declarations,
    Position position) {

  public VariableBlock {
    declarations = List.copyOf(declarations);
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

  /** {@code names AT address : specification := initial;}. */
  public record Variables(List<Name> names, Optional<Name> address, TypeSpecification specification,
      Optional<Initializer> initial) {
    public Variables {
      names = List.copyOf(names);
    }
  }
}
