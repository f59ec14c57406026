package dev.pawl.grammar.rules.model;

import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;

/**
 * An expression of a rule. Each record states what it is made of, and each has a method in its family's visitor: where
 * a stage has no case for a record, it does not compile.
 */
public sealed interface Expr permits BoolExpr, NumExpr, EnumExpr {

  /** What stands directly in it. */
  Parts parts();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record of each family. */
  interface Visitor<R> extends BoolExpr.Visitor<R>, NumExpr.Visitor<R>, EnumExpr.Visitor<R> {}

  /** Visits it and everything in it, the outer first. */
  default void walk(Consumer<Expr> visitor) {
    visitor.accept(this);
    parts().expressions().forEach(part -> part.walk(visitor));
  }

  /** The signals it names, without those of its zones. */
  default Set<Integer> signals() {
    Set<Integer> signals = new TreeSet<>();
    walk(node -> node.parts().signal().ifPresent(signals::add));
    return signals;
  }

  /** The zones it speaks of, without those that these zones depend on. */
  default Set<Integer> zones() {
    Set<Integer> zones = new TreeSet<>();
    walk(node -> node.parts().zone().ifPresent(zones::add));
    return zones;
  }
}
