package dev.pawl.engine.proof;

import java.util.List;
import java.util.Set;

/**
 * A formula of linear temporal logic, evaluated over a finite sequence of states whose last one lasts for ever. Written
 * {@code [] <> ! U W & | ->}, from the tightest binding to the loosest.
 */
sealed interface Ltl {

  /** Whether the formula holds from state {@code i} on; a state is the set of atoms true in it. */
  boolean holds(List<Set<String>> states, int i);

  record Atom(String name) implements Ltl {
    @Override
    public boolean holds(List<Set<String>> states, int i) {
      return states.get(i).contains(name);
    }
  }

  record Not(Ltl operand) implements Ltl {
    @Override
    public boolean holds(List<Set<String>> states, int i) {
      return !operand.holds(states, i);
    }
  }

  record And(Ltl left, Ltl right) implements Ltl {
    @Override
    public boolean holds(List<Set<String>> states, int i) {
      return left.holds(states, i) && right.holds(states, i);
    }
  }

  record Until(Ltl left, Ltl right) implements Ltl {
    @Override
    public boolean holds(List<Set<String>> states, int i) {
      for (int k = i; k < states.size(); k++) {
        if (right.holds(states, k)) {
          return true;
        }
        if (!left.holds(states, k)) {
          return false;
        }
      }
      return false;
    }
  }

  static Ltl or(Ltl left, Ltl right) {
    return new Not(new And(new Not(left), new Not(right)));
  }

  static Ltl eventually(Ltl operand) {
    return new Until(or(new Atom("p"), new Not(new Atom("p"))), operand);
  }

  static Ltl always(Ltl operand) {
    return new Not(eventually(new Not(operand)));
  }

  static Ltl parse(String text) {
    Parser parser = new Parser(text.replace(" ", ""));
    Ltl formula = parser.implication();
    if (parser.at != parser.text.length()) {
      throw new IllegalArgumentException("cannot read '" + text + "' from " + parser.text.substring(parser.at));
    }
    return formula;
  }

  /** One method for each level of binding. */
  final class Parser {
    private final String text;
    private int at;

    private Parser(String text) {
      this.text = text;
    }

    private boolean takes(String sign) {
      boolean there = text.startsWith(sign, at);
      at += there ? sign.length() : 0;
      return there;
    }

    private Ltl implication() {
      Ltl left = disjunction();
      return takes("->") ? or(new Not(left), implication()) : left;
    }

    private Ltl disjunction() {
      Ltl left = conjunction();
      return takes("|") ? or(left, disjunction()) : left;
    }

    private Ltl conjunction() {
      Ltl left = until();
      return takes("&") ? new And(left, conjunction()) : left;
    }

    private Ltl until() {
      Ltl left = unary();
      if (takes("U")) {
        return new Until(left, until());
      }
      if (takes("W")) {
        Ltl right = until();
        return or(always(left), new Until(left, right));
      }
      return left;
    }

    private Ltl unary() {
      if (takes("!")) {
        return new Not(unary());
      }
      if (takes("[]")) {
        return always(unary());
      }
      if (takes("<>")) {
        return eventually(unary());
      }
      if (takes("(")) {
        Ltl inner = implication();
        if (!takes(")")) {
          throw new IllegalArgumentException("a bracket is open in " + text);
        }
        return inner;
      }
      return new Atom(text.substring(at, ++at));
    }
  }
}
