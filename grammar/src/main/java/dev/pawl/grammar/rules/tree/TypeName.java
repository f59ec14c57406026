package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;

/** A type as written. */
public sealed interface TypeName {

  Position position();

  record Bool(Position position) implements TypeName {}

  record Number(Position position) implements TypeName {}

  /** {@code one of (a, b, c)}. */
  record OneOf(List<Name> members, Position position) implements TypeName {}

  /** A unit, or the name of a declared type: which of them is not known before names are resolved. */
  record Named(String text, Position position) implements TypeName {}
}
