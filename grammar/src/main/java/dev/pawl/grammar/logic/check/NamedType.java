package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Image;
import dev.pawl.grammar.logic.model.LogicType;

/** A type with the first value that its variables have unless they state another. */
record NamedType(LogicType type, Image initial) {

  static NamedType of(LogicType type) {
    return new NamedType(type, type.initial());
  }

  /** What stands where a type was refused. */
  static NamedType unknown() {
    return of(new LogicType.Unknown());
  }
}
