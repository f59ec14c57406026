package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** A statement as written. */
public sealed interface Statement {

  Position position();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Assignment e);
    R visit(Invocation e);
    R visit(If e);
    R visit(Case e);
    R visit(For e);
    R visit(While e);
    R visit(Repeat e);
    R visit(Exit e);
    R visit(Continue e);
    R visit(Return e);
    R visit(Wire e);
    R visit(ChartStep e);
    R visit(ChartTransition e);
  }

  record Assignment(Expression target, Expression value, Position position) implements Statement {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * A call that stands by itself.
   *
   * @param block the type of the instance that is called, where it is drawn; empty where only its name is written
   */
  record Invocation(Expression.Call call, Optional<Name> block) implements Statement {
    public Invocation(Expression.Call call) {
      this(call, Optional.empty());
    }

    @Override
    public Position position() {
      return call.position();
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record If(List<Branch> branches, List<Statement> otherwise, Position position) implements Statement {
    public If {
      branches = List.copyOf(branches);
      otherwise = List.copyOf(otherwise);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Branch(Expression condition, List<Statement> body, Position position) {
    public Branch {
      body = List.copyOf(body);
    }
  }

  record Case(Expression selector, List<Choice> choices, Optional<List<Statement>> otherwise,
      Position position) implements Statement {
    public Case {
      choices = List.copyOf(choices);
      otherwise = otherwise.map(List::copyOf);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Choice(List<Label> labels, List<Statement> body) {
    public Choice {
      labels = List.copyOf(labels);
      body = List.copyOf(body);
    }
  }

  /** A single value, or the range from {@code low} to {@code high}. */
  record Label(Expression low, Optional<Expression> high) {}

  record For(Expression variable, Expression from, Expression to, Optional<Expression> by, List<Statement> body,
      Position position) implements Statement {
    public For {
      body = List.copyOf(body);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record While(Expression condition, List<Statement> body, Position position) implements Statement {
    public While {
      body = List.copyOf(body);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Repeat(List<Statement> body, Expression until, Position position) implements Statement {
    public Repeat {
      body = List.copyOf(body);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Exit(Position position) implements Statement {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Continue(Position position) implements Statement {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Return(Position position) implements Statement {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * What a wire of a drawing carries from here on. It is declared by being given a value, and has that value's type. It
   * cannot be written in text.
   *
   * @param condition where it does not hold, the wire carries the first value of its type
   * @param seen whether what it carries can be seen from outside, under its name alone
   */
  record Wire(Name name, Expression value, Optional<Expression> condition, Position position, boolean seen)
      implements Statement {

    public Wire(Name name, Expression value, Optional<Expression> condition, Position position) {
      this(name, value, condition, position, false);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A step of a sequential function chart, with what it controls; it stands in the body of a unit only. */
  record ChartStep(Name name, boolean initial, List<Control> controls, Position position) implements Statement {
    public ChartStep {
      controls = List.copyOf(controls);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code target(qualifier, time);}. */
  record Control(Name target, Optional<Name> qualifier, Optional<Expression> time) {}

  /**
   * A transition of a sequential function chart.
   *
   * @param from the steps that it leaves
   * @param to the steps that it enters
   */
  record ChartTransition(Optional<Name> name, long priority, List<Name> from, List<Name> to, Expression condition,
      Position position) implements Statement {
    public ChartTransition {
      from = List.copyOf(from);
      to = List.copyOf(to);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
