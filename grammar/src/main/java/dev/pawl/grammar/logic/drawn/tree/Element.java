package dev.pawl.grammar.logic.drawn.tree;

import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** What is drawn in a ladder or function block diagram. */
public sealed interface Element {

  Head head();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Contact e);
    R visit(Coil e);
    R visit(Block e);
    R visit(Source e);
    R visit(Sink e);
    R visit(LeftRail e);
    R visit(RightRail e);
    R visit(Jump e);
    R visit(Label e);
    R visit(Return e);
    R visit(Connector e);
    R visit(Continuation e);
  }

  /** A question to which most records have one answer. */
  interface Question<R> extends Visitor<R> {
    R otherwise(Element e);

    @Override default R visit(Contact e) { return otherwise(e); }
    @Override default R visit(Coil e) { return otherwise(e); }
    @Override default R visit(Block e) { return otherwise(e); }
    @Override default R visit(Source e) { return otherwise(e); }
    @Override default R visit(Sink e) { return otherwise(e); }
    @Override default R visit(LeftRail e) { return otherwise(e); }
    @Override default R visit(RightRail e) { return otherwise(e); }
    @Override default R visit(Jump e) { return otherwise(e); }
    @Override default R visit(Label e) { return otherwise(e); }
    @Override default R visit(Return e) { return otherwise(e); }
    @Override default R visit(Connector e) { return otherwise(e); }
    @Override default R visit(Continuation e) { return otherwise(e); }
  }

  /**
   * What every element has.
   *
   * @param id its number in its body
   * @param network the number of its network where the format tells networks apart; 0 where it does not
   * @param x from the left, in the drawing's own unit
   * @param y from the top
   * @param order its place in the order of execution, where one is drawn
   * @param position where it stands in the source
   */
  record Head(long id, int network, double x, double y, Optional<Long> order, Position position) {}

  /** An edge that is waited for. */
  enum Edge {
    NONE,
    RISING,
    FALLING
  }

  /** What power does to a variable: it follows, or is set or reset and keeps that. */
  enum Storage {
    NONE,
    SET,
    RESET
  }

  /** From which element, and which of its outputs, something comes; the empty name is its only one. */
  record Link(long from, String output) {}

  /**
   * A place at which an element takes or gives a value.
   *
   * @param name of the parameter; may be empty
   * @param links what is connected to it; several of an input are joined by OR
   */
  record Pin(String name, boolean negated, Edge edge, Storage storage, List<Link> links, Position position) {
    public Pin {
      links = List.copyOf(links);
    }
  }

  record Contact(Head head, Fragment variable, boolean negated, Edge edge, Pin in) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Coil(Head head, Fragment variable, boolean negated, Edge edge, Storage storage, Pin in) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A function, or an instance of a function block. */
  record Block(Head head, String type, Optional<Fragment> instance, List<Pin> inputs, List<Pin> passed,
      List<Pin> outputs) implements Element {
    public Block {
      inputs = List.copyOf(inputs);
      passed = List.copyOf(passed);
      outputs = List.copyOf(outputs);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A variable, literal or expression that is read. */
  record Source(Head head, Fragment expression, boolean negated, Edge edge) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A variable that is written; with {@code passes} it can be read behind that too. */
  record Sink(Head head, Fragment variable, boolean negated, Edge edge, Storage storage, Pin in, boolean passes)
      implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record LeftRail(Head head) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record RightRail(Head head) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Jump(Head head, String label, boolean negated, Pin in) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Label(Head head, String name) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Return(Head head, boolean negated, Pin in) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Where a wire leaves off, to go on at the continuations of its name. */
  record Connector(Head head, String name, Pin in) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Continuation(Head head, String name) implements Element {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
