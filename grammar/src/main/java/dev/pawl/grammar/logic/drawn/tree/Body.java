package dev.pawl.grammar.logic.drawn.tree;

import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.source.Position;
import java.util.List;

/** What a unit does, as written or drawn. */
public sealed interface Body {

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Written e);
    R visit(Networks e);
    R visit(Chart e);
  }

  /** Structured Text. */
  record Written(Fragment text) implements Body {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A ladder or function block diagram. */
  record Networks(List<Element> elements, Position position) implements Body {
    public Networks {
      elements = List.copyOf(elements);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A sequential function chart. */
  record Chart(Sequence sequence) implements Body {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
