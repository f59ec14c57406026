package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.drawn.intake.ChartLines.Kind;
import dev.pawl.grammar.logic.drawn.intake.ChartLines.Part;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Association;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Condition;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Name;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/**
 * The reader of sequential function charts in the format of IEC 61131-10. Steps, transitions, branches and action
 * blocks stand in one body, each with the places that its lines come from; the priority of a transition stands at the
 * place of the branch from which it comes.
 */
final class PlaceChartReader {

  private static final Map<String, Kind> KINDS = Map.of("Step", Kind.STEP, "JumpStep", Kind.JUMP, "Transition",
      Kind.TRANSITION, "SelectionDivergence", Kind.SELECTION_DIVERGENCE, "SelectionConvergence",
      Kind.SELECTION_CONVERGENCE, "SimultaneousDivergence", Kind.SIMULTANEOUS_DIVERGENCE, "SimultaneousConvergence",
      Kind.SIMULTANEOUS_CONVERGENCE);

  private static final Set<String> BESIDE = Set.of("ActionBlocks", "MacroStep");

  private final XmlNode body;
  private final List<Sequence.Action> actions;
  private final List<XmlNode> named;
  private final Function<XmlNode, Optional<Body>> bodies;
  private final Reading reading;
  private final PlaceReader diagram;
  private final ChartLines lines;
  private final Map<XmlNode, Part> parts = new LinkedHashMap<>();
  private final Map<Long, XmlNode> objects = new HashMap<>();

  private PlaceChartReader(XmlNode body, List<Sequence.Action> actions, List<XmlNode> named,
      Function<XmlNode, Optional<Body>> bodies, Reading reading) {
    this.body = body;
    this.actions = new ArrayList<>(actions);
    this.named = named;
    this.bodies = bodies;
    this.reading = reading;
    this.diagram = new PlaceReader(reading);
    this.lines = new ChartLines(reading);
  }

  /** Whether an element has a meaning in charts only. */
  static boolean reads(XmlNode object) {
    String kind = NamespaceReader.kind(object);
    return KINDS.containsKey(kind) || BESIDE.contains(kind);
  }

  /**
   * The chart of a body.
   *
   * @param named transitions of the unit that have a name
   * @param bodies reads an element that holds a body
   */
  static Sequence chart(XmlNode body, List<Sequence.Action> actions, List<XmlNode> named,
      Function<XmlNode, Optional<Body>> bodies, Reading reading) {
    return new PlaceChartReader(body, actions, named, bodies, reading).read();
  }

  private Sequence read() {
    diagram.enter(body);
    for (XmlNode node : body.children()) {
      if (diagram.head(node) != null) {
        add(node);
      }
    }
    lines.follow();
    Map<XmlNode, List<Association>> associations = new HashMap<>();
    of("ActionBlocks").forEach(block -> ChartReader.stepsOf(lines, parts.get(block), reading).forEach(step ->
        block.children("ActionBlock").forEach(action -> associations.computeIfAbsent(step.node(),
            unused -> new ArrayList<>()).add(association(action)))));
    List<Sequence.Step> steps = of("Step").stream().map(node -> new Sequence.Step(reading.name(node, "name"),
        reading.flag(node, "initialStep"), associations.getOrDefault(node, List.of()))).toList();
    List<Sequence.Transition> transitions = of("Transition").stream()
        .sorted(Comparator.comparingDouble(node -> diagram.head(node).x())).map(this::transition).toList();
    return new Sequence(steps, transitions, actions, diagram.elements(body), body.position());
  }

  private void add(XmlNode node) {
    String kind = NamespaceReader.kind(node);
    boolean drawn = reads(node);
    List<Link> links = drawn ? diagram.sources(node).stream().map(PlaceReader.Place::link).toList() : List.of();
    if (links.size() < node.below("ConnectionPointIn", "Connection").size()) {
      lines.isNews(node);
    }
    Part part = new Part(KINDS.getOrDefault(kind, Kind.OTHER), kind, node.word(kind.equals("JumpStep")
        ? "targetStepName" : "name"), links, node);
    parts.put(node, part);
    objects.put(diagram.head(node).id(), node);
    lines.add(diagram.head(node).id(), part);
    if (kind.equals("MacroStep")) {
      reading.error(node.position(), "macro steps are not supported", "draw their steps in the chart itself");
    }
  }

  private List<XmlNode> of(String kind) {
    return parts.keySet().stream().filter(node -> NamespaceReader.kind(node).equals(kind)).toList();
  }

  // ---- transitions

  private Sequence.Transition transition(XmlNode node) {
    List<String> from = lines.left(parts.get(node));
    Optional<XmlNode> condition = node.child("Condition");
    Optional<Name> name = condition.flatMap(it -> it.child("Reference")).map(it -> new Name(it.word("name"),
        it.position()));
    Set<Long> priorities = new LinkedHashSet<>();
    priorities(node, priorities, new HashSet<>());
    if (priorities.size() > 1) {
      reading.error(node.position(), "the selections before this transition give it different priorities",
          "give it one, or leave it to their places from the left");
    }
    return new Sequence.Transition(name, priorities.stream().findFirst().orElse(0L), from,
        lines.entered(parts.get(node)), condition.map(this::condition).orElseGet(() -> missing(node)), false,
        node.position());
  }

  /** The priorities at the places of selections that the lines to an element come from. */
  private void priorities(XmlNode node, Set<Long> priorities, Set<XmlNode> seen) {
    for (XmlNode connection : node.below("ConnectionPointIn", "Connection")) {
      diagram.place(connection).ifPresent(place -> {
        XmlNode from = objects.get(place.link().from());
        Kind kind = parts.get(from).kind();
        if (kind == Kind.SELECTION_DIVERGENCE) {
          reading.whole(place.point(), "priority").ifPresent(priorities::add);
        }
        if ((kind == Kind.SELECTION_DIVERGENCE || kind == Kind.SIMULTANEOUS_CONVERGENCE) && seen.add(from)) {
          priorities(from, priorities, seen);
        }
      });
    }
  }

  private Condition missing(XmlNode node) {
    return ChartReader.missing(lines, node, reading);
  }

  private Condition condition(XmlNode node) {
    reading.only(node, "Reference", "GraphicalPredicate", "TextualPredicate");
    Optional<XmlNode> reference = node.child("Reference");
    if (reference.isPresent()) {
      String wanted = reference.get().word("name");
      return named.stream().filter(it -> it.word("name").equalsIgnoreCase(wanted)).findFirst()
          .flatMap(it -> it.child("Condition").map(held -> written(held, wanted)))
          .orElseGet(() -> new Sequence.Expressed(new Fragment(wanted, reference.get().position())));
    }
    return node.child("GraphicalPredicate").map(this::drawn).or(() -> node.child("TextualPredicate")
        .map(it -> written(it, ""))).orElseGet(() -> missing(node));
  }

  /** A condition in a body of its own. */
  private Condition written(XmlNode holder, String name) {
    Optional<XmlNode> content = holder.child("PredicateContent");
    if (content.isEmpty()) {
      return missing(holder);
    }
    Optional<Body> held = bodies.apply(content.get());
    return held.isEmpty() ? ChartReader.never(holder) : ChartReader.within(held.get(), name)
        .orElseGet(() -> missing(holder));
  }

  /** A condition that comes out of a drawing of its own, or out of what is drawn beside the steps. */
  private Condition drawn(XmlNode node) {
    PlaceReader inner = new PlaceReader(reading);
    Optional<XmlNode> expression = node.child("GraphicalExpression");
    expression.ifPresent(inner::enter);
    List<XmlNode> wires = node.below("ConnectionPointIn", "Connection");
    if (wires.isEmpty()) {
      return missing(node);
    }
    if (wires.stream().allMatch(wire -> inner.place(wire).isEmpty() && diagram.place(wire).isPresent())) {
      Pin pin = diagram.in(node);
      for (Link link : pin.links()) {
        Part from = parts.get(objects.get(link.from()));
        if (from.kind() != Kind.OTHER) {
          reading.error(node.position(), "the condition is taken from <" + from.word() + ">, which gives no value",
              "take it from an element that gives a BOOL");
          return ChartReader.never(node);
        }
      }
      return new Sequence.Beside(pin);
    }
    Pin pin = inner.in(node);
    return new Sequence.Drawn(expression.map(inner::elements).orElse(List.of()), pin);
  }

  // ---- actions

  private Association association(XmlNode action) {
    reading.only(action, "ActionQualifier", "Inline", "ComplexOperand", "ReferenceName", "RelPosition", "Size");
    XmlNode stated = action.child("ActionQualifier").orElse(action);
    Optional<XmlNode> inline = action.child("Inline");
    Fragment target = action.child("ReferenceName").or(() -> action.child("ComplexOperand")).map(Reading::text)
        .orElseGet(() -> new Fragment("", action.position()));
    if (inline.isPresent()) {
      String name = "action " + action.position().line() + " " + action.position().column();
      target = new Fragment(name, action.position());
      actions.add(new Sequence.Action(new Name(name, action.position()), inline.get().children("BodyContent").stream()
          .flatMap(content -> bodies.apply(content).stream()).toList()));
    } else if (target.text().isBlank()) {
      reading.error(action.position(), "the action has neither a name nor a body", "");
    }
    return new Association(ChartReader.qualifier(stated, action, reading), ChartReader.time(stated, reading), target,
        action.position());
  }
}
