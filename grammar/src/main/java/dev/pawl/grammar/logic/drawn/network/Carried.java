package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Position;
import java.util.Collections;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * What the wires of a network carry while it is translated. A value that one element alone takes stays an expression,
 * so that a rung becomes one statement, as if it had been written; it becomes a wire's before anything is written
 * that it reads.
 */
final class Carried {

  /** Pieces of an expression that are left in one; more of them nest too deeply. */
  static final int LARGEST = 60;

  private final Hidden hidden;
  private final List<Statement> out;
  private final Set<String> shared;
  private final Map<Link, Value> values = new HashMap<>();
  private final Map<Link, Value> pending = new LinkedHashMap<>();

  /** A value on a wire. */
  private static final class Value {

    private Expression expression;
    private Reads reads;
    private final Optional<Expression> guard;
    private final boolean keeps;
    private final Position position;
    private int takers;
    private boolean settled;

    Value(Expression expression, Optional<Expression> guard, boolean keeps, int takers, Position position) {
      this.keeps = keeps;
      this.expression = expression;
      this.reads = Reads.of(expression);
      this.guard = guard;
      this.takers = takers;
      this.position = position;
    }
  }

  /**
   * @param out where statements go
   * @param shared variables that may be others under another name, such as VAR_IN_OUT, in upper case
   */
  Carried(Hidden hidden, List<Statement> out, Set<String> shared) {
    this.hidden = hidden;
    this.out = out;
    this.shared = shared;
  }

  /**
   * Puts a value on the wire from an output, for so many inputs.
   *
   * @param guard where it does not hold, what gives the value has not run
   * @param keeps whether the value is then what it was before, rather than the first one of its type
   */
  void put(Link output, Expression expression, Optional<Expression> guard, boolean keeps, int takers,
      Position position) {
    Value value = new Value(expression, guard, keeps, takers, position);
    values.put(output, value);
    int size = value.reads.size();
    if (takers > 0 && !value.reads.isFixed() && (takers > 1 && size > 1 || size > LARGEST)) {
      settle(value);
    } else if (takers > 0) {
      pending.put(output, value);
    }
  }

  /** The same of a value that no later writing changes. */
  void putSettled(Link output, Expression expression, Optional<Expression> guard, int takers, Position position) {
    Value value = new Value(expression, guard, false, takers, position);
    value.settled = true;
    values.put(output, value);
  }

  boolean has(Link output) {
    return values.containsKey(output);
  }

  /** Takes the value off the wire for one input; what was not worked out is the first value of its type. */
  Expression take(Link output) {
    Value value = values.get(output);
    if (value.guard.isPresent() && !value.settled && !value.keeps) {
      settle(value);
      pending.remove(output);
    }
    return taken(output, value);
  }

  /** Takes the value for something that happens only where {@link #guard} holds. */
  Expression takeGuarded(Link output) {
    return taken(output, values.get(output));
  }

  private Expression taken(Link output, Value value) {
    if (--value.takers <= 0) {
      pending.remove(output);
    }
    return value.expression;
  }

  /** Where the value is worked out only under a condition, that condition. */
  Optional<Expression> guard(Link output) {
    return values.get(output).guard;
  }

  private void settle(Value value) {
    value.expression = wire(value.expression, value.guard.filter(unused -> !value.keeps), value.position);
    value.reads = Reads.of(value.expression);
    value.settled = true;
  }

  /** The same value as one that no later writing changes. */
  Expression wire(Expression expression, Optional<Expression> guard, Position position) {
    if (expression instanceof Expression.BooleanLiteral && guard.isEmpty()) {
      return expression;
    }
    Name name = hidden.fresh("wire", position);
    out.add(new Statement.Wire(name, expression, guard, position));
    return Terms.name(name);
  }

  /** Settles what reads a variable that is about to be written. */
  void writes(Expression target) {
    Reads written = Reads.of(target);
    boolean anything = written.anything() || !Collections.disjoint(written.roots(), shared);
    settle(reads -> anything || reads.anything() || !Collections.disjoint(reads.roots(), shared)
        || !Collections.disjoint(reads.roots(), written.roots()));
  }

  /** Settles all, before something that may write whatever there is. */
  void writesAnything() {
    settle(reads -> true);
  }

  private void settle(Predicate<Reads> affected) {
    for (Iterator<Value> each = pending.values().iterator(); each.hasNext();) {
      Value value = each.next();
      if (!value.reads.isFixed() && affected.test(value.reads)) {
        settle(value);
        each.remove();
      }
    }
  }
}
