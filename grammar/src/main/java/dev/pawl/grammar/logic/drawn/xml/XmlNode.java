package dev.pawl.grammar.logic.drawn.xml;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/** An element of an XML text. */
public final class XmlNode {

  /** Stands in a text where {@code <br/>} ends a line of it that is no line of the file. */
  public static final char BREAK = '\u2028';

  private final String name;
  private final String namespace;
  private final String[] attributes;
  private final Position position;
  private final List<XmlNode> children = new ArrayList<>();
  private StringBuilder text;
  private Position textPosition;

  /**
   * @param attributes their names without a prefix and their values in turns
   */
  XmlNode(String name, String namespace, String[] attributes, Position position) {
    this.name = name;
    this.namespace = namespace;
    this.attributes = attributes.clone();
    this.position = position;
    this.textPosition = position;
  }

  void add(XmlNode child) {
    children.add(child);
  }

  void add(String piece) {
    if (text == null) {
      text = new StringBuilder();
    }
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
      List<XmlNode> next = new ArrayList<>();
      for (XmlNode node : found) {
        next.addAll(node.children(step));
      }
      found = next;
    }
    return found;
  }

  public Optional<String> attribute(String wanted) {
    for (int i = 0; i < attributes.length; i += 2) {
      if (attributes[i].equals(wanted)) {
        return Optional.of(attributes[i + 1]);
      }
    }
    return Optional.empty();
  }

  /** An attribute without blanks around it; the empty string where there is none. */
  public String word(String wanted) {
    return attribute(wanted).orElse("").strip();
  }

  boolean hasText() {
    return text != null;
  }

  /** The text that stands directly in it. */
  public String text() {
    return text == null ? "" : text.toString();
  }

  /** Where that text begins. */
  public Position textPosition() {
    return textPosition;
  }
}
