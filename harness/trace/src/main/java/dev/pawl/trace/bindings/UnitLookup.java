package dev.pawl.trace.bindings;

import dev.pawl.grammar.rules.model.ValueType;
import java.util.Optional;

/** Finds units by name, so that bindings speak the same units as rules. */
public interface UnitLookup {

  /** A lookup that knows no units. */
  UnitLookup NONE = name -> Optional.empty();

  /** The unit with its factor, offset and dimension; empty if there is none of the name. */
  Optional<ValueType.Quantity> find(String name);
}
