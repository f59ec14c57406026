package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Edge;
import dev.pawl.grammar.logic.drawn.tree.Element.Head;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Element.Storage;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.parse.Fragment;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The reader of ladder and function block diagrams in the format of IEC 61131-10: networks and rungs are told apart,
 * and wires lead from numbered places at which values come out.
 */
final class PlaceReader {

  private final Reading reading;
  private final Map<String, Link> places = new HashMap<>();
  private final Map<XmlNode, Head> heads = new HashMap<>();

  PlaceReader(Reading reading) {
    this.reading = reading;
  }

  List<Element> elements(XmlNode body) {
    List<XmlNode> objects = new ArrayList<>();
    int number = 0;
    for (XmlNode network : body.children()) {
      if (network.name().equals("Network") || network.name().equals("Rung")) {
        number++;
        for (XmlNode object : network.children()) {
          if (object.name().endsWith("Object")) {
            objects.add(object);
            heads.put(object, head(object, objects.size(), number));
            note(object);
          }
        }
      }
    }
    return objects.stream().flatMap(object -> element(object).stream()).toList();
  }

  private Head head(XmlNode object, int id, int network) {
    Optional<XmlNode> position = object.child("RelPosition");
    return new Head(id, network, position.map(at -> reading.number(at, "x", 0)).orElse(0.0),
        position.map(at -> reading.number(at, "y", 0)).orElse(0.0), Optional.empty(), object.position());
  }

  /** Notes each place at which something comes out. */
  private void note(XmlNode object) {
    long id = heads.get(object).id();
    object.children("ConnectionPointOut").forEach(point -> places.put(point.word("connectionPointOutId"),
        new Link(id, "")));
    for (String kind : List.of("Output", "Inout", "InOut")) {
      object.below(kind + "Variables", kind + "Variable").forEach(variable -> variable.children("ConnectionPointOut")
          .forEach(point -> places.put(point.word("connectionPointOutId"), new Link(id,
              variable.word("parameterName")))));
    }
  }

  private Optional<Element> element(XmlNode node) {
    Head head = heads.get(node);
    Element element = switch (NamespaceReader.kind(node)) {
      case "LeftPowerRail" -> new Element.LeftRail(head);
      case "RightPowerRail" -> new Element.RightRail(head);
      case "Contact" -> new Element.Contact(head, Reading.attribute(node, "operand"), negated(node), edge(node),
          in(node));
      case "Coil" -> new Element.Coil(head, Reading.attribute(node, "operand"), negated(node), edge(node),
          reading.word(node, "latch", Storage.class), in(node));
      case "DataSource" -> new Element.Source(head, Reading.attribute(node, "identifier"), false, Edge.NONE);
      case "DataSink" -> new Element.Sink(head, Reading.attribute(node, "identifier"), false, Edge.NONE, Storage.NONE,
          in(node), false);
      case "Block" -> new Element.Block(head, node.word("typeName"), instance(node), pins(node, "Input"),
          pins(node, "Inout"), pins(node, "Output"));
      case "Jump" -> new Element.Jump(head, label(node, "targetLabel"), negated(node), in(node));
      case "Label" -> new Element.Label(head, label(node, "label"));
      case "Return" -> new Element.Return(head, negated(node), in(node));
      case "Connector" -> new Element.Connector(head, node.word("name"), in(node));
      case "Continuation" -> new Element.Continuation(head, node.word("name"));
      default -> null;
    };
    boolean remark = NamespaceReader.kind(node).isEmpty() || node.name().equals("CommonObject");
    if (element == null && !remark) {
      reading.error(node.position(), "an element of the kind '" + NamespaceReader.kind(node)
          + "' is not read in this format", "");
    }
    return Optional.ofNullable(element);
  }

  private static String label(XmlNode node, String attribute) {
    return node.word(attribute).isEmpty() ? node.word("label") : node.word(attribute);
  }

  private static Optional<Fragment> instance(XmlNode node) {
    return node.word("instanceName").isEmpty() ? Optional.empty()
        : Optional.of(Reading.attribute(node, "instanceName"));
  }

  private Edge edge(XmlNode node) {
    return reading.word(node, "edge", Edge.class);
  }

  private List<Pin> pins(XmlNode block, String kind) {
    List<XmlNode> variables = new ArrayList<>(block.below(kind + "Variables", kind + "Variable"));
    if (kind.equals("Inout")) {
      variables.addAll(block.below("InOutVariables", "InOutVariable"));
    }
    return variables.stream().map(variable -> new Pin(variable.word("parameterName"), negated(variable),
        edge(variable), Storage.NONE, links(variable), variable.position())).toList();
  }

  private Pin in(XmlNode node) {
    return new Pin("", false, Edge.NONE, Storage.NONE, links(node), node.position());
  }

  private List<Link> links(XmlNode node) {
    List<Link> links = new ArrayList<>();
    for (XmlNode connection : node.below("ConnectionPointIn", "Connection")) {
      String from = connection.word("refConnectionPointOutId");
      if (places.containsKey(from)) {
        links.add(places.get(from));
      } else {
        reading.error(connection.position(), "the connection comes from place '" + from
            + "', which is not in this body",
            "");
      }
    }
    return links;
  }

  private boolean negated(XmlNode node) {
    return reading.flag(node, "negated");
  }
}
