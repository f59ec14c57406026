package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A declaration at the top of a source. */
public sealed interface Declaration {

  /** {@code name : specification := initial;} of a TYPE block. */
  record TypeDeclaration(Name name, TypeSpecification specification, Optional<Initializer> initial)
      implements Declaration {}

  /** A VAR_GLOBAL block (or, wrongly, another section) outside of any program organization unit. */
  record Globals(VariableBlock block) implements Declaration {}

  /**
   * A program organization unit.
   *
   * @param returns the type of a function's result
   * @param actions pieces of its body with names of their own, which it runs where it calls them
   * @param end where its END_ word stands
   */
  record Unit(Kind kind, Name name, Optional<TypeSpecification> returns, List<VariableBlock> blocks,
      List<Statement> body, List<Action> actions, Position end) implements Declaration {
    public Unit {
      blocks = List.copyOf(blocks);
      body = List.copyOf(body);
      actions = List.copyOf(actions);
    }

    /** The same unit with more variables. */
    public Unit with(List<VariableBlock> more) {
      List<VariableBlock> all = new ArrayList<>(blocks);
      all.addAll(more);
      return new Unit(kind, name, returns, all, body, actions, end);
    }

    /** A unit without actions. */
    public Unit(Kind kind, Name name, Optional<TypeSpecification> returns, List<VariableBlock> blocks,
        List<Statement> body, Position end) {
      this(kind, name, returns, blocks, body, List.of(), end);
    }
  }

  /** {@code ACTION name: body END_ACTION}: it sees the variables of its unit and has none of its own. */
  record Action(Name name, List<Statement> body) {
    public Action {
      body = List.copyOf(body);
    }
  }

  /**
   * A configuration: which programs run, and when. Only what stands here runs.
   *
   * @param globals its VAR_GLOBAL blocks
   * @param resources its processors; the nameless one where tasks and programs stand directly in it
   */
  record Configuration(Name name, List<VariableBlock> globals, List<Resource> resources) implements Declaration {
    public Configuration {
      globals = List.copyOf(globals);
      resources = List.copyOf(resources);
    }
  }

  /**
   * A processor of a configuration.
   *
   * @param name empty where tasks and programs stand directly in the configuration
   * @param globals VAR_GLOBAL blocks of its own
   */
  record Resource(Optional<Name> name, List<VariableBlock> globals, List<Task> tasks, List<Instance> programs) {
    public Resource {
      globals = List.copyOf(globals);
      tasks = List.copyOf(tasks);
      programs = List.copyOf(programs);
    }
  }

  /**
   * {@code TASK name(SINGLE := single, INTERVAL := interval, PRIORITY := priority);}.
   *
   * @param single what starts it by its rising edge
   * @param interval time from run to run
   * @param priority 0 is the most urgent
   */
  record Task(Name name, Optional<Expression> single, Optional<Expression> interval, Optional<Expression> priority) {}

  /**
   * {@code PROGRAM name WITH task : type(connections);}.
   *
   * @param connections inputs that a value is given, outputs that a variable takes
   */
  record Instance(Name name, boolean retain, Optional<Name> task, Name type, List<Expression.Argument> connections) {
    public Instance {
      connections = List.copyOf(connections);
    }
  }

  /** The three kinds of program organization units. */
  enum Kind {
    PROGRAM,
    FUNCTION,
    FUNCTION_BLOCK
  }
}
