package dev.pawl.grammar.logic.drawn.xml;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** An element of an XML text. */
public final class XmlNode {

  private final String name;
  private final String namespace;
  private final Map<String, String> attributes;
  private final Position position;
  private final List<XmlNode> children = new ArrayList<>();
  private final StringBuilder text = new StringBuilder();
  private Position textPosition;

  XmlNode(String name, String namespace, Map<String, String> attributes, Position position) {
    this.name = name;
    this.namespace = namespace;
    this.attributes = Map.copyOf(attributes);
    this.position = position;
    this.textPosition = position;
  }

  void add(XmlNode child) {
    children.add(child);
  }

  void add(String piece) {
    text.append(piece);
  }

  void beginsAt(Position start) {
    textPosition = start;
  }

  /** Its name without a prefix. */
  public String name() {
    return name;
  }

  public String namespace() {
    return namespace;
  }

  /** Where its start tag begins. */
  public Position position() {
    return position;
  }

  public List<XmlNode> children() {
    return Collections.unmodifiableList(children);
  }

  /** The children of a name, in order. */
  public List<XmlNode> children(String wanted) {
    List<XmlNode> found = new ArrayList<>(children.size());
    for (XmlNode child : children) {
      if (child.name.equals(wanted)) {
        found.add(child);
      }
    }
    return found;
  }

  /** The first child of a name. */
  public Optional<XmlNode> child(String wanted) {
    for (XmlNode child : children) {
      if (child.name.equals(wanted)) {
        return Optional.of(child);
      }
    }
    return Optional.empty();
  }

  /** What is found by going down through children of these names, each time through all of them. */
  public List<XmlNode> below(String... path) {
    List<XmlNode> found = List.of(this);
    for (String step : path) {
      found = found.stream().flatMap(node -> node.children(step).stream()).toList();
    }
    return found;
  }

  public Optional<String> attribute(String wanted) {
    return Optional.ofNullable(attributes.get(wanted));
  }

  /** An attribute without blanks around it; the empty string where there is none. */
  public String word(String wanted) {
    return attributes.getOrDefault(wanted, "").strip();
  }

  /** The text that stands directly in it. */
  public String text() {
    return text.toString();
  }

  /** Where that text begins. */
  public Position textPosition() {
    return textPosition;
  }
}
