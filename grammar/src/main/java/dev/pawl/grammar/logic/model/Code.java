package dev.pawl.grammar.logic.model;

import java.util.List;
import java.util.function.Consumer;

/**
 * A piece of a checked program. Each record states what it is made of, and each step and value has a method in its
 * family's visitor: where a stage has no case for a record, it does not compile.
 */
public sealed interface Code permits Step, Value, Place {

  /** What stands directly in it, in the order in which it is run. */
  List<Code> parts();

  /** Visits it and everything in it, the outer first. */
  default void walk(Consumer<Code> visitor) {
    visitor.accept(this);
    parts().forEach(part -> part.walk(visitor));
  }
}
