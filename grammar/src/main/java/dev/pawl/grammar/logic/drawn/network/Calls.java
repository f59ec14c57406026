package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.check.ProgramChecker;
import dev.pawl.grammar.logic.drawn.intake.Project;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Block;
import dev.pawl.grammar.logic.drawn.tree.Element.Edge;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Element.Storage;
import dev.pawl.grammar.logic.model.StandardBlock;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Expression.BinaryOperator;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** The translation of blocks: functions and instances, with EN and ENO. */
final class Calls {

  private static final Map<String, BinaryOperator> OPERATORS = Map.of("AND", BinaryOperator.AND, "OR",
      BinaryOperator.OR, "XOR", BinaryOperator.XOR);

  private final NetworkTranslator network;
  private final Surroundings around;

  Calls(NetworkTranslator network, Surroundings around) {
    this.network = network;
    this.around = around;
  }

  static boolean isEno(Pin pin) {
    return pin.name().equalsIgnoreCase("ENO");
  }

  private static boolean isEn(Pin pin) {
    return pin.name().equalsIgnoreCase("EN");
  }

  /** Whether a block is an instance, and so remembers its outputs itself. */
  boolean isInstance(Block block) {
    return block.instance().isPresent() && around.unit(block.type())
        .filter(unit -> unit.kind() == Declaration.Kind.FUNCTION).isEmpty() && !isFunction(block.type());
  }

  private static boolean isFunction(String type) {
    return OPERATORS.containsKey(type.toUpperCase(Locale.ROOT)) || type.equalsIgnoreCase("NOT")
        || ProgramChecker.isStandardFunction(type);
  }

  /** An output of an instance, as it is now. */
  Expression output(Block block, String name, Position position) {
    Expression instance = around.expression(block.instance().orElseThrow(), "the instance");
    Optional<Pin> pin = block.outputs().stream().filter(it -> it.name().equalsIgnoreCase(name)).findFirst();
    Expression value = new Expression.Member(instance, new Name(pin.map(Pin::name).orElse(name), position));
    return pin.filter(Pin::negated).isPresent() ? Terms.not(value, position) : value;
  }

  void evaluate(Block block) {
    Position position = block.head().position();
    for (Pin pin : block.outputs()) {
      if (pin.edge() != Edge.NONE || pin.storage() != Storage.NONE) {
        around.error(pin.position(), "an output of a block has no edge and is not set or reset", "");
      }
    }
    Optional<Expression> enabled = enabled(block);
    boolean instance = isInstance(block);
    if (instance) {
      run(block, enabled, position);
    } else if (isPlain(block.type())) {
      plain(block, enabled, position);
    } else {
      call(block, enabled, position);
    }
    block.outputs().stream().filter(Calls::isEno).forEach(pin -> {
      Expression eno = enabled.orElse(Terms.truth(true, position));
      network.give(new Link(block.head().id(), "ENO"), pin.negated() ? Terms.not(eno, position) : eno, Optional.empty(),
          position);
    });
    if (!instance && StandardBlock.named(block.type()).isPresent()) {
      around.error(position, block.type() + " is a function block, so it needs an instance", "name the instance");
    }
  }

  /** What is connected to EN; nothing where the block always runs. */
  private Optional<Expression> enabled(Block block) {
    Optional<Pin> en = block.inputs().stream().filter(Calls::isEn).findFirst()
        .filter(pin -> !pin.links().isEmpty());
    if (en.isEmpty()) {
      return Optional.empty();
    }
    Expression value = network.value(en.get(), "EN");
    return Terms.isTrue(value) ? Optional.empty() : Optional.of(network.once(value, block.head().position()));
  }

  private void run(Block block, Optional<Expression> enabled, Position position) {
    Expression instance = around.expression(block.instance().orElseThrow(), "the instance");
    List<Expression.Argument> arguments = arguments(block);
    if (StandardBlock.named(block.type()).isPresent()) {
      network.wires().writes(instance);
    } else {
      network.wires().writesAnything();
    }
    Statement run = new Statement.Invocation(new Expression.Call(instance, arguments, position),
        Optional.of(new Name(block.type(), position)));
    network.out().addAll(Terms.when(enabled.orElse(Terms.truth(true, position)), List.of(run), position));
    for (Pin pin : block.outputs()) {
      if (!isEno(pin)) {
        network.give(new Link(block.head().id(), pin.name().toUpperCase(Locale.ROOT)),
            output(block, pin.name(), pin.position()), enabled, true, position);
      }
    }
    passed(block);
  }

  /** What goes in by reference comes out as the same variable. */
  private void passed(Block block) {
    for (Pin pin : block.passed()) {
      Link output = new Link(block.head().id(), pin.name().toUpperCase(Locale.ROOT));
      if (network.takers(output) > 0) {
        network.give(output, network.value(pin, pin.name()), Optional.empty(), pin.position());
      }
    }
  }

  private List<Expression.Argument> arguments(Block block) {
    List<Expression.Argument> arguments = new ArrayList<>();
    List<Pin> pins = new ArrayList<>(block.inputs());
    pins.addAll(block.passed());
    for (Pin pin : pins) {
      if (!isEn(pin) && !pin.links().isEmpty()) {
        arguments.add(new Expression.Input(new Name(pin.name(), pin.position()), network.value(pin, pin.name())));
      }
    }
    return arguments;
  }

  /** Whether a block is a function of the standard, which has one result. */
  boolean isPlain(String type) {
    return isFunction(type) && around.unit(type).isEmpty();
  }

  /** A function of the standard, which does nothing but give its result. */
  private void plain(Block block, Optional<Expression> enabled, Position position) {
    List<Pin> pins = block.inputs().stream().filter(pin -> !isEn(pin)).toList();
    List<Expression> values = new ArrayList<>();
    for (Pin pin : pins) {
      values.add(network.value(pin, pin.name().isEmpty() ? "an input of " + block.type() : pin.name() + " of "
          + block.type()));
    }
    result(block, formula(block, pins, values, position), enabled, position);
  }

  private Expression formula(Block block, List<Pin> pins, List<Expression> values, Position position) {
    String type = block.type().toUpperCase(Locale.ROOT);
    BinaryOperator operator = OPERATORS.get(type);
    if (operator != null && values.size() > 1) {
      return network.joined(values, (left, right) -> new Expression.Binary(operator, left, right, position), position);
    }
    if (type.equals("MOVE") && values.size() == 1) {
      return values.get(0);
    }
    if (type.equals("NOT") && values.size() == 1) {
      return Terms.not(values.get(0), position);
    }
    boolean named = pins.size() > 1 && pins.stream().noneMatch(pin -> pin.name().isEmpty()
        || pin.name().matches("(?i)IN[0-9]+"));
    List<Expression.Argument> arguments = new ArrayList<>();
    for (int i = 0; i < pins.size(); i++) {
      arguments.add(named ? new Expression.Input(new Name(pins.get(i).name(), pins.get(i).position()), values.get(i))
          : new Expression.Positional(values.get(i)));
    }
    return new Expression.Call(new Expression.NameReference(new Name(block.type(), position)), arguments, position);
  }

  private void result(Block block, Expression value, Optional<Expression> enabled, Position position) {
    Optional<Pin> pin = block.outputs().stream().filter(it -> !isEno(it)).findFirst();
    pin.ifPresent(it -> network.give(new Link(block.head().id(), it.name().toUpperCase(Locale.ROOT)),
        it.negated() ? Terms.not(value, position) : value, enabled, position));
  }

  /** A function that somebody wrote: it may read and write whatever there is. */
  private void call(Block block, Optional<Expression> enabled, Position position) {
    Optional<Project.Drawing> unit = around.unit(block.type());
    List<Expression.Argument> arguments = arguments(block);
    network.wires().writesAnything();
    List<Pin> outputs = block.outputs().stream().filter(pin -> !isEno(pin)).toList();
    Optional<Pin> result = outputs.stream().filter(pin -> isResult(block, pin)).findFirst()
        .or(() -> outputs.stream().findFirst().filter(pin -> unit.filter(it -> it.returns().isEmpty()).isEmpty()));
    List<Pin> others = outputs.stream().filter(pin -> result.filter(it -> it == pin).isEmpty()).toList();
    Map<Link, Expression> given = new LinkedHashMap<>();
    for (Pin pin : others) {
      Link output = new Link(block.head().id(), pin.name().toUpperCase(Locale.ROOT));
      if (network.takers(output) > 0) {
        Optional<Name> name = memory(unit, pin);
        name.ifPresent(it -> arguments.add(new Expression.Output(new Name(pin.name(), pin.position()), false,
            Optional.of(Terms.name(it)))));
        name.ifPresent(it -> given.put(output, pin.negated() ? Terms.not(Terms.name(it), position) : Terms.name(it)));
      }
    }
    Expression.Call call = new Expression.Call(new Expression.NameReference(new Name(block.type(), position)),
        arguments,
        position);
    if (result.isEmpty() || unit.filter(it -> it.returns().isEmpty()).isPresent()) {
      network.out().addAll(Terms.when(enabled.orElse(Terms.truth(true, position)),
          List.of(new Statement.Invocation(call)), position));
    } else {
      Name name = around.hidden().fresh("wire", position);
      network.out().add(new Statement.Wire(name, call, enabled, position));
      network.give(new Link(block.head().id(), result.get().name().toUpperCase(Locale.ROOT)),
          result.get().negated() ? Terms.not(Terms.name(name), position) : Terms.name(name), enabled, position);
    }
    given.forEach((output, value) -> network.give(output, value, enabled, position));
    passed(block);
  }

  private static boolean isResult(Element.Block block, Pin pin) {
    return pin.name().isEmpty() || pin.name().equalsIgnoreCase("OUT") || pin.name().equalsIgnoreCase(block.type());
  }

  /** Memory for an output beside the result, whose type has to be known. */
  private Optional<Name> memory(Optional<Project.Drawing> unit, Pin pin) {
    Optional<Name> name = unit.flatMap(it -> it.blocks().stream().flatMap(block -> block.declarations().stream())
        .filter(variables -> variables.names().stream().anyMatch(each -> each.text().equalsIgnoreCase(pin.name())))
        .findFirst()).map(variables -> around.hidden().kept("output", variables.specification(), Optional.empty(),
            pin.position()));
    if (name.isEmpty()) {
      around.error(pin.position(), "the function has no output " + pin.name() + " that is known here", "");
    }
    return name;
  }
}
