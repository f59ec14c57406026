package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.intake.Project;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.model.StandardBlock;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.logic.tree.VariableBlock.Section;
import dev.pawl.grammar.source.Position;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The types of wires that lead back, as far as declarations tell them: memory has to be laid out before anything
 * else.
 */
final class DrawnTypes {

  private static final Pattern CONVERSION = Pattern.compile("(?:[A-Z]+_)?TO_([A-Z]+)");

  private static final Set<String> TRUTHS = Set.of("GT", "GE", "EQ", "LE", "LT", "NE");

  private static final Set<String> BY_LAST_INPUT = Set.of("SEL", "MUX");

  private final Diagram diagram;
  private final Surroundings around;
  private final Map<String, TypeSpecification> declared;
  private final Set<Long> seen = new HashSet<>();

  DrawnTypes(Diagram diagram, Surroundings around) {
    this.diagram = diagram;
    this.around = around;
    this.declared = around.types();
  }

  /** The type of what comes from an output; empty where it cannot be told. */
  Optional<TypeSpecification> of(Link output) {
    return diagram.element(output.from()).filter(it -> seen.add(output.from()))
        .flatMap(element -> element instanceof Element.Block block ? block(block, output)
        : element instanceof Element.Source source ? expression(source.expression())
        : element instanceof Element.Sink sink ? expression(sink.variable())
        : Optional.of(named("BOOL", element.head().position())));
  }

  private static TypeSpecification named(String name, Position position) {
    return new TypeSpecification.Named(new Name(name, position));
  }

  private Optional<TypeSpecification> expression(Fragment fragment) {
    return around.expression(fragment, "this") instanceof Expression.NameReference name
        ? Optional.ofNullable(declared.get(name.name().key())) : Optional.empty();
  }

  private Optional<TypeSpecification> block(Element.Block block, Link output) {
    Position position = block.head().position();
    String type = block.type().toUpperCase(Locale.ROOT);
    if (output.output().equalsIgnoreCase("ENO") || TRUTHS.contains(type)) {
      return Optional.of(named("BOOL", position));
    }
    Optional<StandardBlock> standard = StandardBlock.named(type);
    if (standard.isPresent()) {
      return standard.get().type().variable(output.output()).map(it -> named(it.type().name(), position));
    }
    Optional<Project.Drawing> unit = around.unit(type);
    if (unit.isPresent()) {
      return variable(unit.get(), output.output()).or(unit.get()::returns);
    }
    Matcher conversion = CONVERSION.matcher(type);
    if (conversion.matches()) {
      return Optional.of(named(conversion.group(1), position));
    }
    List<Element.Pin> inputs = block.inputs().stream().filter(pin -> !pin.name().equalsIgnoreCase("EN")).toList();
    for (int i = inputs.size() - 1; i >= (BY_LAST_INPUT.contains(type) ? 1 : 0); i--) {
      for (Link link : inputs.get(i).links()) {
        Optional<TypeSpecification> found = of(link);
        if (found.isPresent()) {
          return found;
        }
      }
    }
    return Optional.empty();
  }

  private static Optional<TypeSpecification> variable(Project.Drawing unit, String name) {
    for (VariableBlock block : unit.blocks()) {
      for (VariableBlock.Variables variables : block.declarations()) {
        if (block.section() == Section.VAR_OUTPUT && variables.names().stream()
            .anyMatch(it -> it.text().equalsIgnoreCase(name))) {
          return Optional.of(variables.specification());
        }
      }
    }
    return Optional.empty();
  }
}
