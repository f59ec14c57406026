package dev.pawl.grammar.logic.model;

import dev.pawl.grammar.source.Position;
import java.util.List;

/** A statement, ready to be compiled. */
public sealed interface Step {

  Position position();

  record Assign(Place target, Value value, Position position) implements Step {}

  /** Copies a whole array, structure or function block instance. */
  record Copy(Place target, Place source, Position position) implements Step {}

  /** Replaces the bits from {@code shift} on by a narrower bit string. */
  record AssignPart(Place target, int shift, int width, Value value, Position position) implements Step {}

  /** Stores the address of a place in a slot: passes a VAR_IN_OUT argument. */
  record Bind(Place slot, Place target, Position position) implements Step {}

  /** Runs a function block instance once. */
  record Run(Place instance, BlockType block, Position position) implements Step {}

  /** Calls a function and drops its result. */
  record Evaluate(Value.Call call, Position position) implements Step {}

  record If(List<Branch> branches, List<Step> otherwise, Position position) implements Step {
    public If {
      branches = List.copyOf(branches);
      otherwise = List.copyOf(otherwise);
    }
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
  }

  record While(Value condition, List<Step> body, Position position) implements Step {
    public While {
      body = List.copyOf(body);
    }
  }

  record Repeat(List<Step> body, Value until, Position position) implements Step {
    public Repeat {
      body = List.copyOf(body);
    }
  }

  record Exit(Position position) implements Step {}

  record Continue(Position position) implements Step {}

  record Return(Position position) implements Step {}
}
