package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Edge;
import dev.pawl.grammar.logic.drawn.tree.Element.Head;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Element.Storage;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The reader of bodies. */
final class BodyReader {

  /** What has a meaning beside steps only. */
  private static final Set<String> OF_CHARTS = Set.of("actionBlock", "step", "macroStep", "jumpStep", "transition",
      "selectionDivergence", "selectionConvergence", "simultaneousDivergence", "simultaneousConvergence");

  private final Reading reading;
  private final ChartReader charts;

  /** What stands right at the places of connection of the element at hand, as elements of their own. */
  private final List<Element> beside = new ArrayList<>();
  private long numbered = -1;

  /** The numbers of elements of the body at hand that wires come from. */
  private final Set<String> sources = new HashSet<>();

  /** The numbers of inputs of the body at hand that are drawn without a variable. */
  private final Set<Long> empty = new HashSet<>();

  BodyReader(Reading reading) {
    this.reading = reading;
    this.charts = new ChartReader(reading, this);
  }

  /** What is in an element that holds a body; nothing after a message. */
  Optional<Body> body(XmlNode holder, List<Sequence.Action> actions, List<XmlNode> transitions) {
    reading.only(holder, "ST", "FBD", "LD", "SFC", "IL");
    Optional<XmlNode> elsewhere = Reading.drawnElsewhere(holder);
    if (elsewhere.isPresent()) {
      reading.error(elsewhere.get().position(), "the body is drawn as <" + elsewhere.get().name() + "> in additional"
          + " data of one tool, and is empty where the format has it",
          "export it as Structured Text, ladder, function blocks or a chart");
      return Optional.empty();
    }
    for (XmlNode node : holder.children()) {
      switch (node.name()) {
        case "ST" -> {
          return Optional.of(new Body.Written(Reading.text(node)));
        }
        case "FBD", "LD" -> {
          node.children().stream().filter(child -> OF_CHARTS.contains(child.name())).forEach(child -> reading.error(
              child.position(), "<" + child.name() + "> does nothing outside a chart", "draw it in a body <SFC>"));
          return Optional.of(new Body.Networks(elements(node), node.position()));
        }
        case "SFC" -> {
          return charts.chart(node, actions, transitions).map(Body.Chart::new);
        }
        case "IL" -> {
          reading.error(node.position(), "Instruction List is not supported", "export it as Structured Text, or drawn");
          return Optional.of(new Body.Written(new Fragment(";", node.position())));
        }
        default -> { }
      }
    }
    return Optional.empty();
  }

  /** All elements of ladder and function block diagrams that stand in a body. */
  List<Element> elements(XmlNode body) {
    List<Element> elements = new ArrayList<>();
    empty.clear();
    body.children("inVariable").stream().filter(this::isEmpty).forEach(it -> reading.whole(it, "localId")
        .ifPresent(empty::add));
    sources.clear();
    body.children().forEach(this::noteSources);
    for (XmlNode node : body.children()) {
      beside.clear();
      element(node).ifPresent(elements::add);
      elements.addAll(beside);
    }
    return elements;
  }

  /** Notes what wires come from, as far as the format has them. */
  private void noteSources(XmlNode node) {
    for (XmlNode child : node.children()) {
      if (child.name().equals("connection")) {
        sources.add(child.word("refLocalId"));
      } else if (!child.name().equals("addData")) {
        noteSources(child);
      }
    }
  }

  private Optional<Element> element(XmlNode node) {
    return switch (node.name()) {
      case "contact" -> Optional.of(contact(node));
      case "coil" -> Optional.of(new Element.Coil(head(node), operand(node, "variable"), negated(node),
          edge(node, "edge"), storage(node, "storage"), in(node)));
      case "block" -> Optional.of(block(node));
      case "inVariable" -> isEmpty(node) ? emptied(node) : Optional.of(source(node));
      case "outVariable" -> isEmpty(node) ? emptied(node) : Optional.of(new Element.Sink(head(node),
          operand(node, "expression"), negated(node), edge(node, "edge"), storage(node, "storage"), in(node), false));
      case "inOutVariable" -> Optional.of(passing(node));
      case "leftPowerRail" -> Optional.of(new Element.LeftRail(head(node)));
      case "rightPowerRail" -> Optional.of(new Element.RightRail(head(node)));
      case "jump" -> Optional.of(new Element.Jump(head(node), node.word("label"), negated(node), in(node)));
      case "label" -> Optional.of(new Element.Label(head(node), node.word("label")));
      case "return" -> Optional.of(new Element.Return(head(node), negated(node), in(node)));
      case "connector" -> Optional.of(new Element.Connector(head(node), node.word("name"), in(node)));
      case "continuation" -> Optional.of(new Element.Continuation(head(node), node.word("name")));
      case "vendorElement" -> {
        boolean taken = sources.contains(node.word("localId"));
        boolean joined = taken || List.of("inputVariables", "inOutVariables").stream().anyMatch(list ->
            !node.below(list, "variable", "connectionPointIn", "connection").isEmpty());
        if (joined) {
          reading.error(node.position(), "this element is of one tool only, and what it does is not stated",
              "replace it by a block of the standard");
        }
        yield reading.whole(node, "localId").filter(unused -> taken).map(id -> new Element.LeftRail(new Head(id, 0, 0,
            0, Optional.empty(), node.textPosition())));
      }
      case "error" -> {
        reading.error(node.position(), "the export says that it could not express an element here",
            "look at it in the tool that wrote the project");
        yield Optional.empty();
      }
      case "comment", "addData", "documentation" -> Optional.empty();
      default -> {
        if (OF_CHARTS.contains(node.name())) {
          yield Optional.empty();
        }
        reading.error(node.position(), "<" + node.name() + "> is no element of a diagram", NearName.hint(node.name(),
            List.of("contact", "coil", "block", "inVariable", "outVariable", "inOutVariable", "leftPowerRail",
            "rightPowerRail", "jump", "label", "return", "connector", "continuation")).orElse(""));
        yield Optional.empty();
      }
    };
  }

  private boolean isEmpty(XmlNode node) {
    return operand(node, "expression").text().isBlank();
  }

  /** An input or output without a variable, which is left out with its wires where that is allowed. */
  private Optional<Element> emptied(XmlNode node) {
    if (node.child("variable").isPresent()) {
      reading.only(node, "position", "connectionPointIn", "connectionPointOut", "expression");
      return Optional.empty();
    }
    reading.diagnostics().accept(Allowance.EMPTY_BOXES.found(reading.choices(), node.position(),
        "an input or output is drawn without a variable or value",
        "write the variable or value into it, or remove it"));
    return Optional.empty();
  }

  private Element contact(XmlNode node) {
    if (storage(node, "storage") != Storage.NONE) {
      reading.error(node.position(), "a contact sets and resets nothing", "");
    }
    return new Element.Contact(head(node), operand(node, "variable"), negated(node), edge(node, "edge"),
        in(node));
  }

  private Element passing(XmlNode node) {
    if (reading.flag(node, "negatedOut") || edge(node, "edgeOut") != Edge.NONE
        || storage(node, "storageOut") != Storage.NONE) {
      reading.error(node.position(), "what goes on behind an inOutVariable is as it came in",
          "draw negatedOut, edgeOut or storageOut as an element of its own");
    }
    return new Element.Sink(head(node), operand(node, "expression"), reading.flag(node, "negatedIn"),
        edge(node, "edgeIn"),
        storage(node, "storageIn"), in(node), true);
  }

  private Element source(XmlNode node) {
    if (storage(node, "storage") != Storage.NONE) {
      reading.error(node.position(), "what is read is not set or reset", "");
    }
    return new Element.Source(head(node), operand(node, "expression"), negated(node), edge(node, "edge"));
  }

  private Element block(XmlNode node) {
    Optional<Fragment> instance = node.word("instanceName").isEmpty() ? Optional.empty()
        : Optional.of(Reading.attribute(node, "instanceName"));
    String type = Reading.function(node.word("typeName"));
    if (type.isEmpty()) {
      reading.error(node.position(), "the block has no typeName", "");
    }
    if (node.below("addData", "data").stream().flatMap(Reading::all).anyMatch(it -> it.text().contains(":="))) {
      reading.error(node.position(), "the block " + type + " does what stands as text in additional data of one tool",
          "write it as a function or function block, or as Structured Text");
    }
    return new Element.Block(head(node), type, instance,
        node.below("inputVariables", "variable").stream().map(it -> pin(it, node)).toList(),
        node.below("inOutVariables", "variable").stream().map(it -> pin(it, node)).toList(),
        node.below("outputVariables", "variable").stream().map(it -> pin(it, node)).toList());
  }

  private Pin pin(XmlNode node, XmlNode element) {
    String name = node.word("formalParameter");
    for (XmlNode operand : operands(node, "connectionPointOut")) {
      Head head = beside(element, operand);
      beside.add(new Element.Sink(head, Reading.text(operand), false, Edge.NONE, Storage.NONE, new Pin("", false,
          Edge.NONE, Storage.NONE, List.of(new Link(reading.whole(element, "localId").orElse(-1L), name)),
          operand.position()), false));
    }
    return new Pin(name, negated(node), edge(node, "edge"), storage(node, "storage"), taken(node, element),
        node.position());
  }

  /** The operands that stand right at a place of connection, without an element and a wire, as the schema allows. */
  private static List<XmlNode> operands(XmlNode owner, String point) {
    return owner.below(point, "expression").stream().filter(it -> !Reading.text(it).text().isBlank()).toList();
  }

  /** Where an operand stands that has no place of its own. */
  private Head beside(XmlNode element, XmlNode operand) {
    Head head = head(element);
    return new Head(--numbered, 0, head.x(), head.y(), Optional.empty(), operand.position());
  }

  /** What comes into a place, by wires and from operands right at it. */
  private List<Link> taken(XmlNode owner, XmlNode element) {
    List<Link> links = links(owner);
    for (XmlNode operand : operands(owner, "connectionPointIn")) {
      Head head = beside(element, operand);
      beside.add(new Element.Source(head, Reading.text(operand), false, Edge.NONE));
      links.add(new Link(head.id(), ""));
    }
    return links;
  }

  Head head(XmlNode node) {
    Optional<XmlNode> position = node.child("position");
    Optional<Long> id = reading.whole(node, "localId");
    if (id.isEmpty()) {
      reading.error(node.position(), "<" + node.name() + "> lacks its localId", "");
    }
    return new Head(id.orElse(-1L), 0, position.map(at -> reading.number(at, "x", 0)).orElse(0.0),
        position.map(at -> reading.number(at, "y", 0)).orElse(0.0), reading.whole(node, "executionOrderId"),
        node.position());
  }

  private Fragment operand(XmlNode node, String child) {
    return node.child(child).map(Reading::text).orElse(new Fragment("", node.position()));
  }

  private Edge edge(XmlNode node, String attribute) {
    return reading.word(node, attribute, Edge.class);
  }

  private Storage storage(XmlNode node, String attribute) {
    return reading.word(node, attribute, Storage.class);
  }

  /** The one place at which an element takes something. */
  Pin in(XmlNode node) {
    operands(node, "connectionPointOut").forEach(it -> reading.error(it.position(), "an <expression> right at the <"
        + "connectionPointOut> of a <" + node.name() + "> is not supported", "draw it as an element, with a wire"));
    return new Pin("", false, Edge.NONE, Storage.NONE, taken(node, node), node.position());
  }

  List<Link> links(XmlNode owner) {
    List<Link> links = new ArrayList<>();
    reading.noWires(owner);
    for (XmlNode point : owner.children("connectionPointIn")) {
      for (XmlNode connection : point.children("connection")) {
        Optional<Long> from = reading.whole(connection, "refLocalId");
        if (from.isEmpty()) {
          reading.error(connection.position(), "the connection comes from nowhere: it lacks its refLocalId", "");
        }
        from.filter(id -> !empty.contains(id)).ifPresent(id -> links.add(
            new Link(id, connection.word("formalParameter"))));
      }
    }
    return links;
  }

  private boolean negated(XmlNode node) {
    return reading.flag(node, "negated");
  }
}
