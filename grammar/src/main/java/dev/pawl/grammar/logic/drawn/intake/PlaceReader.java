package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Edge;
import dev.pawl.grammar.logic.drawn.tree.Element.Head;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Element.Storage;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The reader of ladder and function block diagrams in the format of IEC 61131-10: networks and rungs are told apart,
 * and wires lead from numbered places at which values come out. A number is of its network only.
 */
final class PlaceReader {

  /**
   * A place at which something comes out.
   *
   * @param point the element that states it
   */
  record Place(Link link, XmlNode point) {}

  private final Reading reading;
  private final Map<String, Place> places = new HashMap<>();
  private final Map<XmlNode, Head> heads = new HashMap<>();
  private int ids;

  /** What a wire comes from of which it has been told that it comes from nowhere. */
  private Optional<Element> nowhere = Optional.empty();

  PlaceReader(Reading reading) {
    this.reading = reading;
  }

  /** The elements of all networks or rungs of a body, in the order in which they are evaluated. */
  List<Element> networks(XmlNode body) {
    String kind = NamespaceReader.kind(body).equals("LD") ? "Rung" : "Network";
    reading.only(body, kind);
    List<XmlNode> networks = body.children(kind).stream().sorted(Comparator.comparingLong(network ->
        reading.whole(network, "evaluationOrder").orElse(0L))).toList();
    List<Element> elements = new ArrayList<>();
    for (int i = 0; i < networks.size(); i++) {
      XmlNode network = networks.get(i);
      places.clear();
      enter(network, i + 1);
      if (!network.word("label").isEmpty()) {
        elements.add(new Element.Label(new Head(++ids, i + 1, 0, 0, Optional.empty(), network.position()),
            network.word("label")));
      }
      elements.addAll(elements(network));
    }
    return elements;
  }

  /** Takes in a chart, or the drawing of a condition, in which what is connected is a network. */
  void enter(XmlNode holder) {
    enter(holder, 0);
  }

  private void enter(XmlNode holder, int network) {
    reading.only(holder, "CommonObject", "LdObject", "FbdObject", "SfcObject", "RelPosition", "Size");
    for (XmlNode object : holder.children()) {
      if (object.name().endsWith("Object")) {
        Optional<XmlNode> position = object.child("RelPosition");
        heads.put(object, new Head(++ids, network, position.map(at -> reading.number(at, "x", 0)).orElse(0.0),
            position.map(at -> reading.number(at, "y", 0)).orElse(0.0), Optional.empty(), object.position()));
        note(object);
      }
    }
    holder.children().stream().flatMap(object -> object.below("AddData", "Data", "EvaluationPriority").stream())
        .findFirst().ifPresent(it -> reading.diagnostics().accept(Diagnostic.warning(it.position(), "what is evaluated"
            + " first is worked out from wires and places here, and not by this EvaluationPriority",
            "compare the order in which the controller evaluates this network")));
  }

  /** Notes each place at which something comes out. */
  private void note(XmlNode object) {
    for (String kind : List.of("ConnectionPointOut", "ConnectionPointOutAction")) {
      object.children(kind).forEach(point -> note(object, "", point));
    }
    for (String kind : List.of("Output", "InOut")) {
      object.below(kind + "Variables", kind + "Variable").forEach(variable -> variable.children("ConnectionPointOut")
          .forEach(point -> note(object, variable.word("parameterName"), point)));
    }
  }

  private void note(XmlNode object, String output, XmlNode point) {
    Place place = new Place(new Link(heads.get(object).id(), output), point);
    if (places.putIfAbsent(point.word("connectionPointOutId"), place) != null) {
      reading.error(point.position(), "the connectionPointOutId " + point.word("connectionPointOutId")
          + " occurs twice in this network", "");
    }
  }

  Head head(XmlNode object) {
    return heads.get(object);
  }

  /** The elements that stand directly in what was entered. */
  List<Element> elements(XmlNode holder) {
    List<Element> elements = new ArrayList<>();
    holder.children().stream().filter(heads::containsKey).forEach(object -> element(object).ifPresent(elements::add));
    nowhere.ifPresent(elements::add);
    nowhere = Optional.empty();
    return elements;
  }

  private Optional<Element> element(XmlNode node) {
    Head head = heads.get(node);
    return switch (NamespaceReader.kind(node)) {
      case "LeftPowerRail" -> Optional.of(new Element.LeftRail(head));
      case "RightPowerRail" -> Optional.of(new Element.RightRail(head));
      case "Contact" -> Optional.of(new Element.Contact(head, Reading.attribute(node, "operand"), negated(node),
          edge(node), in(node)));
      case "CompareContact" -> Optional.of(new Element.Contact(head, compared(node), false, Edge.NONE, in(node)));
      case "Coil" -> Optional.of(new Element.Coil(head, Reading.attribute(node, "operand"), negated(node), edge(node),
          reading.word(node, "latch", Storage.class), in(node)));
      case "DataSource" -> Optional.of(new Element.Source(head, Reading.attribute(node, "identifier"), false,
          Edge.NONE));
      case "DataSink" -> Optional.of(new Element.Sink(head, Reading.attribute(node, "identifier"), false, Edge.NONE,
          Storage.NONE, in(node), false));
      case "Block" -> Optional.of(new Element.Block(head, Reading.function(node.word("typeName")), instance(node),
          pins(node, "Input"), pins(node, "InOut"), pins(node, "Output")));
      case "Jump" -> Optional.of(new Element.Jump(head, node.word("targetNetworkLabel"), false, in(node)));
      case "Return" -> Optional.of(new Element.Return(head, false, in(node)));
      case "Connector" -> Optional.of(new Element.Connector(head, node.word("label"), in(node)));
      case "Continuation" -> Optional.of(new Element.Continuation(head, node.word("label")));
      case "Comment" -> Optional.empty();
      default -> {
        if (!PlaceChartReader.reads(node)) {
          reading.error(node.position(), "an element of the kind '" + NamespaceReader.kind(node)
              + "' is not read in this format", "draw it by elements of the format");
        } else if (head.network() > 0) {
          reading.error(node.position(), "<" + NamespaceReader.kind(node) + "> does nothing outside a chart",
              "draw it in a body SFC");
        }
        yield Optional.empty();
      }
    };
  }

  /** What a contact that compares two values is closed by. */
  private Fragment compared(XmlNode node) {
    List<String> lacking = List.of("operand1", "compareOperator", "operand2").stream().filter(it ->
        node.word(it).isEmpty()).toList();
    lacking.forEach(it -> reading.error(node.position(), "the comparing contact lacks its " + it, ""));
    return new Fragment(lacking.isEmpty() ? operand(node, "operand1") + " " + node.word("compareOperator") + " "
        + operand(node, "operand2") : "FALSE", node.position());
  }

  private static String operand(XmlNode node, String attribute) {
    String text = node.word(attribute);
    return text.matches("[A-Za-z0-9_.#%\\[\\]]+") ? text : "(" + text + ")";
  }

  private static Optional<Fragment> instance(XmlNode node) {
    return node.word("instanceName").isEmpty() ? Optional.empty()
        : Optional.of(Reading.attribute(node, "instanceName"));
  }

  private Edge edge(XmlNode node) {
    return reading.word(node, "edge", Edge.class);
  }

  private List<Pin> pins(XmlNode block, String kind) {
    return block.below(kind + "Variables", kind + "Variable").stream().map(variable -> new Pin(
        variable.word("parameterName"), negated(variable), edge(variable), Storage.NONE, links(variable),
        variable.position())).toList();
  }

  Pin in(XmlNode node) {
    return new Pin("", false, Edge.NONE, Storage.NONE, links(node), node.position());
  }

  private List<Link> links(XmlNode node) {
    List<Link> links = new ArrayList<>(sources(node).stream().map(Place::link).toList());
    if (links.size() < node.below("ConnectionPointIn").stream().mapToInt(it -> it.children("Connection").size()
        + it.children("FeedbackConnection").size()).sum()) {
      Element from = nowhere.orElseGet(() -> new Element.LeftRail(new Head(++ids, 0, 0, 0, Optional.empty(),
          node.position())));
      nowhere = Optional.of(from);
      links.add(new Link(from.head().id(), ""));
    }
    return links;
  }

  /** The places that the wires into an element come from; a message where there is no such place. */
  List<Place> sources(XmlNode node) {
    node.below("ConnectionPointIn", "FeedbackConnection").forEach(it -> reading.error(it.position(),
        "a FeedbackConnection is not supported", "read its variable by a DataSource"));
    List<Place> sources = new ArrayList<>();
    for (XmlNode connection : node.below("ConnectionPointIn", "Connection")) {
      place(connection).ifPresentOrElse(sources::add, () -> reading.error(connection.position(),
          "the connection comes from place '" + connection.word("refConnectionPointOutId")
          + "', which is not in this network", ""));
    }
    return sources;
  }

  /** Where a wire comes from. */
  Optional<Place> place(XmlNode connection) {
    return Optional.ofNullable(places.get(connection.word("refConnectionPointOutId")));
  }

  private boolean negated(XmlNode node) {
    return reading.flag(node, "negated");
  }
}
