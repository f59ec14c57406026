package dev.pawl.grammar.logic.tree;

import java.util.List;

/** Everything one source declares, in order. */
public record CompilationUnit(String file, List<Declaration> declarations) {

  public CompilationUnit {
    declarations = List.copyOf(declarations);
  }
}
