package dev.pawl.logic.drawn;

import dev.pawl.logic.drawn.Sketch.From;
import dev.pawl.logic.drawn.Sketch.Part;
import dev.pawl.logic.drawn.Sketch.Pin;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** The writer of sketches in the exchange format. */
final class SketchXml {

  private static final String HEAD = """
      <?xml version="1.0" encoding="UTF-8"?>
      <project xmlns="http://www.plcopen.org/xml/tc6_0201" xmlns:xhtml="http://www.w3.org/1999/xhtml">
      <fileHeader companyName="" productName="" productVersion="1" creationDateTime="2026-01-01T00:00:00"/>
      <contentHeader name="sketch"><coordinateInfo><fbd><scaling x="1" y="1"/></fbd><ld><scaling x="1" y="1"/></ld>
      <sfc><scaling x="1" y="1"/></sfc></coordinateInfo></contentHeader>
      <types><dataTypes/><pous>
      """;

  private final StringBuilder out = new StringBuilder();
  private int sources = 100_000;
  private Set<String> used = Set.of();

  private SketchXml() {}

  /** A project of the given units. */
  static String project(String... pous) {
    return HEAD + String.join("", pous) + "</pous></types>\n<instances><configurations/></instances>\n</project>\n";
  }

  /**
   * A program.
   *
   * @param language LD, FBD or SFC
   * @param variables declarations such as {@code a b : BOOL := TRUE; t : TON}
   * @param elements its elements, by {@link #elements}
   */
  static String program(String name, String language, String variables, String elements) {
    return unit("program", name, "", variables, "<" + language + ">\n" + elements + "</" + language + ">");
  }

  static String unit(String kind, String name, String interfaceParts, String variables, String body) {
    return "<pou name=\"" + name + "\" pouType=\"" + kind + "\"><interface>\n" + interfaceParts
        + (variables.isBlank() ? "" : "<localVars>\n" + variables(variables) + "</localVars>\n")
            + "</interface>\n<body>"
        + body + "</body></pou>\n";
  }

  static String variables(String declarations) {
    StringBuilder text = new StringBuilder();
    for (String declaration : declarations.split(";")) {
      if (declaration.isBlank()) {
        continue;
      }
      String[] sides = declaration.strip().split(" *: *", 2);
      String[] value = sides[1].split(" *:= *");
      for (String name : sides[0].split("[ ,]+")) {
        text.append("<variable name=\"").append(name).append("\"><type>").append(type(value[0])).append("</type>");
        if (value.length > 1) {
          text.append("<initialValue><simpleValue value=\"").append(escaped(value[1])).append("\"/></initialValue>");
        }
        text.append("</variable>\n");
      }
    }
    return text.toString();
  }

  private static String type(String name) {
    return name.matches("BOOL|S?INT|DINT|LINT|U.*INT|REAL|LREAL|TIME|BYTE|WORD|DWORD|LWORD") ? "<" + name + "/>"
        : "<derived name=\"" + name + "\"/>";
  }

  static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("\"", "&quot;");
  }

  /** The elements of a sketch. */
  static String elements(Sketch sketch) {
    SketchXml writer = new SketchXml();
    writer.collect(sketch);
    if (sketch.parts().stream().anyMatch(part -> part.pins().stream().anyMatch(pin -> pin.from().stream()
        .anyMatch(from -> from.element() == 0)))) {
      writer.out.append("<leftPowerRail localId=\"0\"><position x=\"0\" y=\"0\"/>"
          + "<connectionPointOut formalParameter=\"\"/></leftPowerRail>\n");
    }
    sketch.parts().forEach(writer::part);
    return writer.out.toString();
  }

  private void collect(Sketch sketch) {
    used = new LinkedHashSet<>();
    sketch.parts().forEach(part -> part.pins().forEach(pin -> pin.from().forEach(from ->
        used.add(from.element() + "." + from.output()))));
  }

  private void part(Part part) {
    String point = part.kind().equals("block") ? "" : inputs(part, part.pin());
    switch (part.kind()) {
      case "contact" -> element("contact", part, marks(part), point + "<connectionPointOut/><variable>"
          + escaped(part.name()) + "</variable>");
      case "coil" -> element("coil", part, marks(part), point + "<connectionPointOut/><variable>"
          + escaped(part.name()) + "</variable>");
      case "in" -> element("inVariable", part, marks(part), "<connectionPointOut/><expression>" + escaped(part.name())
          + "</expression>");
      case "out" -> element("outVariable", part, marks(part), point + "<expression>" + escaped(part.name())
          + "</expression>");
      case "inout" -> element("inOutVariable", part, "", point + "<connectionPointOut/><expression>"
          + escaped(part.name()) + "</expression>");
      case "jump" -> element("jump", part, " label=\"" + part.name() + "\"", point);
      case "label" -> element("label", part, " label=\"" + part.name() + "\"", "");
      case "return" -> element("return", part, "", point);
      case "connector" -> element("connector", part, " name=\"" + part.name() + "\"", point);
      case "continuation" -> element("continuation", part, " name=\"" + part.name() + "\"", "<connectionPointOut/>");
      case "block" -> block(part);
      case "transition" -> { }
      default -> throw new IllegalArgumentException("no such element: " + part.kind());
    }
  }

  private static String marks(Part part) {
    return switch (part.mark()) {
      case '/' -> " negated=\"true\"";
      case '^' -> " edge=\"rising\"";
      case '_' -> " edge=\"falling\"";
      case 'S' -> " storage=\"set\"";
      case 'R' -> " storage=\"reset\"";
      default -> "";
    };
  }

  private void element(String name, Part part, String attributes, String inside) {
    out.append("<").append(name).append(" localId=\"").append(part.id()).append("\"").append(attributes);
    if (part.order().isPresent()) {
      out.append(" executionOrderId=\"").append(part.order().get()).append("\"");
    }
    out.append(String.format(Locale.ROOT, "><position x=\"%s\" y=\"%s\"/>", part.x(), part.y())).append(inside)
        .append("</").append(name).append(">\n");
  }

  private String inputs(Part part, Pin pin) {
    List<String> connections = new ArrayList<>();
    for (From from : pin.from()) {
      int id = from.element();
      if (from.expression().isPresent()) {
        id = sources++;
        out.append("<inVariable localId=\"").append(id).append("\"><position x=\"").append(part.x())
            .append("\" y=\"").append(part.y()).append("\"/><connectionPointOut/><expression>")
                .append(escaped(from.expression().get())).append("</expression></inVariable>\n");
      }
      connections.add("<connection refLocalId=\"" + id + "\"" + (from.output().isEmpty() ? ""
          : " formalParameter=\"" + from.output() + "\"") + "/>");
    }
    return connections.isEmpty() ? "" : "<connectionPointIn>" + String.join("", connections) + "</connectionPointIn>";
  }

  private void block(Part part) {
    StringBuilder inputs = new StringBuilder();
    for (Pin pin : part.pins()) {
      inputs.append("<variable formalParameter=\"").append(pin.name()).append("\"")
          .append(pin.negated() ? " negated=\"true\"" : "").append(">").append(inputs(part, pin)).append("</variable>");
    }
    Set<String> outputs = new LinkedHashSet<>();
    for (String output : used) {
      if (output.startsWith(part.id() + ".")) {
        outputs.add(output.substring(output.indexOf('.') + 1));
      }
    }
    StringBuilder given = new StringBuilder();
    outputs.forEach(output -> given.append("<variable formalParameter=\"").append(output)
        .append("\"><connectionPointOut/></variable>"));
    element("block", part, " typeName=\"" + part.name() + "\"" + (part.instance().isEmpty() ? ""
        : " instanceName=\"" + part.instance() + "\""), "<inputVariables>" + inputs
        + "</inputVariables><inOutVariables/><outputVariables>" + given + "</outputVariables>");
  }
}
