package dev.pawl.grammar.logic.drawn.tree;

import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Position;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * A sequential function chart: which steps a transition leaves and enters is worked out already.
 *
 * @param actions those that have a body of their own
 * @param diagram networks beside the steps, from which conditions are taken
 */
public record Sequence(List<Step> steps, List<Transition> transitions, List<Action> actions, List<Element> diagram,
    Position position) {

  public Sequence {
    steps = List.copyOf(steps);
    transitions = List.copyOf(transitions);
    actions = List.copyOf(actions);
    diagram = List.copyOf(diagram);
  }

  /** A step with what it does while it is active. */
  public record Step(Name name, boolean initial, List<Association> associations) {
    public Step {
      associations = List.copyOf(associations);
    }
  }

  /** The control of an action, or of a variable of type BOOL, by a step. */
  public record Association(Qualifier qualifier, Optional<Expression> time, Fragment target, Position position) {}

  /** When an action is active, by the step that controls it. */
  public enum Qualifier {
    N(false), R(false), S(false), L(true), D(true), P(false), P0(false), P1(false), SD(true), DS(true), SL(true);

    private final boolean timed;

    Qualifier(boolean timed) {
      this.timed = timed;
    }

    /** The qualifier of a name, in any case. */
    public static Optional<Qualifier> named(String name) {
      return Arrays.stream(values()).filter(it -> it.name().equalsIgnoreCase(name)).findFirst();
    }

    /** Whether it has a time. */
    public boolean timed() {
      return timed;
    }
  }

  /**
   * A transition.
   *
   * @param priority the lower goes first where several leave one step
   * @param from names of the steps that it leaves, in upper case
   * @param to names of the steps that it enters, in upper case
   * @param negated whether it clears where the condition does not hold
   */
  public record Transition(Optional<Name> name, long priority, List<String> from, List<String> to, Condition condition,
      boolean negated, Position position) {
    public Transition {
      from = List.copyOf(from);
      to = List.copyOf(to);
    }
  }

  /** What lets a transition clear. */
  public sealed interface Condition {

    /** The answer for the one it is. */
    <R> R match(Function<Read, R> read, Function<Expressed, R> expressed, Function<Beside, R> beside,
        Function<Drawn, R> drawn);
  }

  /** An expression that has been read. */
  public record Read(Expression expression) implements Condition {
    @Override
    public <R> R match(Function<Read, R> read, Function<Expressed, R> expressed, Function<Beside, R> beside,
        Function<Drawn, R> drawn) {
      return read.apply(this);
    }
  }

  /** An expression as text. */
  public record Expressed(Fragment expression) implements Condition {
    @Override
    public <R> R match(Function<Read, R> read, Function<Expressed, R> expressed, Function<Beside, R> beside,
        Function<Drawn, R> drawn) {
      return expressed.apply(this);
    }
  }

  /** What comes out of the diagram beside the steps. */
  public record Beside(Element.Pin pin) implements Condition {
    @Override
    public <R> R match(Function<Read, R> read, Function<Expressed, R> expressed, Function<Beside, R> beside,
        Function<Drawn, R> drawn) {
      return beside.apply(this);
    }
  }

  /** What comes out of a diagram of its own. */
  public record Drawn(List<Element> elements, Element.Pin pin) implements Condition {
    public Drawn {
      elements = List.copyOf(elements);
    }

    @Override
    public <R> R match(Function<Read, R> read, Function<Expressed, R> expressed, Function<Beside, R> beside,
        Function<Drawn, R> drawn) {
      return drawn.apply(this);
    }
  }

  /** An action with a body of its own. */
  public record Action(Name name, List<Body> bodies) {
    public Action {
      bodies = List.copyOf(bodies);
    }
  }
}
