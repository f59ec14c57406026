package dev.pawl.grammar.rules.model;

import java.util.List;
import java.util.OptionalInt;

/**
 * What stands directly in an expression.
 *
 * @param expressions the expressions in it, in the order written
 * @param signal index of the signal it names
 * @param zone index of the zone it speaks of
 */
public record Parts(List<Expr> expressions, OptionalInt signal, OptionalInt zone) {

  static final Parts NONE = of();

  static Parts of(Expr... expressions) {
    return new Parts(List.of(expressions), OptionalInt.empty(), OptionalInt.empty());
  }

  static Parts ofSignal(int signal) {
    return new Parts(List.of(), OptionalInt.of(signal), OptionalInt.empty());
  }

  static Parts ofZone(int zone) {
    return new Parts(List.of(), OptionalInt.empty(), OptionalInt.of(zone));
  }
}
