package dev.pawl.grammar.logic.model;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;

/** A statement, ready to be compiled. */
public sealed interface Step extends Code {

  Position position();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Assign e);
    R visit(Copy e);
    R visit(AssignPart e);
    R visit(Bind e);
    R visit(Run e);
    R visit(Evaluate e);
    R visit(If e);
    R visit(Case e);
    R visit(For e);
    R visit(While e);
    R visit(Repeat e);
    R visit(Exit e);
    R visit(Continue e);
    R visit(Return e);
  }

  private static List<Code> with(List<? extends Code> first, List<? extends Code> then) {
    List<Code> all = new ArrayList<>(first);
    all.addAll(then);
    return all;
  }

  record Assign(Place target, Value value, Position position) implements Step {
    @Override public List<Code> parts() { return List.of(target, value); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Copies a whole array, structure or function block instance. */
  record Copy(Place target, Place source, Position position) implements Step {
    @Override public List<Code> parts() { return List.of(target, source); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Replaces the bits from {@code shift} on by a narrower bit string. */
  record AssignPart(Place target, int shift, int width, Value value, Position position) implements Step {
    @Override public List<Code> parts() { return List.of(target, value); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Stores the address of a place in a slot: passes a VAR_IN_OUT argument. */
  record Bind(Place slot, Place target, Position position) implements Step {
    @Override public List<Code> parts() { return List.of(target); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Runs a function block instance once. */
  record Run(Place instance, BlockType block, Position position) implements Step {
    @Override public List<Code> parts() { return List.of(instance); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Calls a function and drops its result. */
  record Evaluate(Value.Call call, Position position) implements Step {
    @Override public List<Code> parts() { return List.of(call); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record If(List<Branch> branches, List<Step> otherwise, Position position) implements Step {
    public If {
      branches = List.copyOf(branches);
      otherwise = List.copyOf(otherwise);
    }

    @Override
    public List<Code> parts() {
      List<Code> parts = new ArrayList<>();
      branches.forEach(branch -> parts.addAll(with(List.of(branch.condition()), branch.body())));
      return with(parts, otherwise);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Branch(Value condition, List<Step> body, Position position) {
    public Branch {
      body = List.copyOf(body);
    }
  }

  record Case(Value selector, List<Choice> choices, List<Step> otherwise, Position position) implements Step {
    public Case {
      choices = List.copyOf(choices);
      otherwise = List.copyOf(otherwise);
    }

    @Override
    public List<Code> parts() {
      List<Code> parts = new ArrayList<>(List.of(selector));
      choices.forEach(choice -> parts.addAll(choice.body()));
      return with(parts, otherwise);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Choice(List<Label> labels, List<Step> body) {
    public Choice {
      labels = List.copyOf(labels);
      body = List.copyOf(body);
    }
  }

  /** Values from {@code low} to {@code high}, both included. */
  record Label(long low, long high) {}

  /** The end value and the increment are evaluated once, before the first pass. */
  record For(Place variable, Value from, Value to, Value by, List<Step> body, Position position) implements Step {
    public For {
      body = List.copyOf(body);
    }

    @Override public List<Code> parts() { return with(List.of(variable, from, to, by), body); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record While(Value condition, List<Step> body, Position position) implements Step {
    public While {
      body = List.copyOf(body);
    }

    @Override public List<Code> parts() { return with(List.of(condition), body); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Repeat(List<Step> body, Value until, Position position) implements Step {
    public Repeat {
      body = List.copyOf(body);
    }

    @Override public List<Code> parts() { return with(body, List.of(until)); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Exit(Position position) implements Step {
    @Override public List<Code> parts() { return List.of(); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Continue(Position position) implements Step {
    @Override public List<Code> parts() { return List.of(); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Return(Position position) implements Step {
    @Override public List<Code> parts() { return List.of(); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
