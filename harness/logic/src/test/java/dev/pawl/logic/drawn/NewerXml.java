package dev.pawl.logic.drawn;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * The writer of projects in the format of IEC 61131-10, by its schema: it takes one in the format before and draws the
 * same. What cannot be drawn in the newer format is an error.
 */
final class NewerXml {

  private static final String HEAD = """
      <?xml version="1.0" encoding="UTF-8"?>
      <Project xmlns="www.iec.ch/public/TC65SC65BWG7TF10" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
      xmlns:rxt="www.iec.ch/public/TC65SC65BWG7TF10/Recommendation" schemaVersion="1.0">
      <FileHeader companyName="" productName="" productVersion="1"/>
      <ContentHeader name="sketch" creationDateTime="2026-01-01T00:00:00"/>
      <Types><GlobalNamespace>
      """;

  private static final Map<String, String> PARAMETERS = Map.of("inputVars", "InputVars", "outputVars", "OutputVars",
      "inOutVars", "InoutVars");

  /** Whether jumps of charts are drawn as such, which is a recommendation; else as lines to the step. */
  private final boolean jumps;

  private NewerXml(boolean jumps) {
    this.jumps = jumps;
  }

  /** The same project in the newer format. */
  static String of(String older) {
    return new NewerXml(true).project(root(older));
  }

  /** The same with nothing that is not in the schema of the standard itself. */
  static String plain(String older) {
    return new NewerXml(false).project(root(older));
  }

  /** Whether the newer format has all that a project draws: it marks operands nowhere but in ladder. */
  static boolean has(String older) {
    boolean others = older.contains("executionOrderId") || older.contains("<inOutVariable ")
        || older.contains("<dataType ");
    return !others && !older.matches("(?s).*<(inVariable|outVariable|jump|return)[^>]* (negated|edge|storage)=.*");
  }

  private static Element root(String xml) {
    try {
      return DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(xml)))
          .getDocumentElement();
    } catch (ParserConfigurationException | SAXException | IOException e) {
      throw new AssertionError(xml, e);
    }
  }

  // ---- projects

  private static List<Element> children(Node node, String... names) {
    List<Element> found = new ArrayList<>();
    for (Node child = node.getFirstChild(); child != null; child = child.getNextSibling()) {
      if (child instanceof Element element && (names.length == 0 || List.of(names).contains(element.getTagName()))) {
        found.add(element);
      }
    }
    return found;
  }

  private static List<Element> below(Element node, String... path) {
    List<Element> found = List.of(node);
    for (String step : path) {
      found = found.stream().flatMap(each -> children(each, step).stream()).toList();
    }
    return found;
  }

  private static String escaped(String text) {
    return SketchXml.escaped(text);
  }

  private String project(Element project) {
    StringBuilder out = new StringBuilder(HEAD);
    below(project, "types", "pous", "pou").forEach(pou -> out.append(unit(pou)));
    out.append("</GlobalNamespace></Types>\n<Instances>\n");
    for (Element configuration : below(project, "instances", "configurations", "configuration")) {
      out.append("<Configuration name=\"").append(configuration.getAttribute("name")).append("\">\n");
      children(configuration, "resource").forEach(resource -> resource(resource, out));
      children(configuration, "globalVars").forEach(list -> out.append(list(list, "GlobalVars", "", 0)));
      out.append("</Configuration>\n");
    }
    return out.append("</Instances>\n</Project>\n").toString();
  }

  private static void resource(Element resource, StringBuilder out) {
    out.append("<Resource name=\"").append(resource.getAttribute("name")).append("\" resourceTypeName=\"any\">\n");
    StringBuilder programs = new StringBuilder();
    for (Element task : children(resource, "task")) {
      out.append("<Task xsi:type=\"StandardTask\" name=\"").append(task.getAttribute("name")).append("\" interval=\"")
          .append(task.getAttribute("interval")).append("\" priority=\"").append(task.getAttribute("priority"))
          .append("\"/>\n");
      children(task, "pouInstance").forEach(it -> programs.append("<ProgramInstance name=\"")
          .append(it.getAttribute("name")).append("\" typeName=\"").append(it.getAttribute("typeName"))
          .append("\" associatedTaskName=\"").append(task.getAttribute("name")).append("\"/>\n"));
    }
    out.append(programs).append("</Resource>\n");
  }

  private String unit(Element pou) {
    String kind = switch (pou.getAttribute("pouType")) {
      case "program" -> "Program";
      case "function" -> "Function";
      default -> "FunctionBlock";
    };
    StringBuilder out = new StringBuilder("<" + kind + " name=\"" + pou.getAttribute("name") + "\">\n");
    below(pou, "interface", "returnType").forEach(it -> out.append("<ResultType>").append(type(it))
        .append("</ResultType>\n"));
    StringBuilder parameters = new StringBuilder();
    int order = 1;
    for (Element list : below(pou, "interface").stream().flatMap(it -> children(it).stream()).toList()) {
      if (PARAMETERS.containsKey(list.getTagName())) {
        parameters.append(list(list, PARAMETERS.get(list.getTagName()), "", order));
        order += children(list).size();
      }
    }
    out.append(parameters.isEmpty() ? "" : "<Parameters>\n" + parameters + "</Parameters>\n");
    below(pou, "interface", "externalVars").forEach(list -> out.append(list(list, "ExternalVars", "", 0)));
    below(pou, "interface", "localVars").forEach(list -> out.append(kind.equals("Function")
        ? list(list, "TempVars", "", 0) : list(list, "Vars", " accessSpecifier=\"private\"", 0)));
    children(pou, "body").forEach(body -> out.append("<MainBody>").append(bodies(body)).append("</MainBody>\n"));
    below(pou, "actions", "action").forEach(action -> out.append("<Action name=\"").append(action.getAttribute("name"))
        .append("\"><Body>").append(below(action, "body").stream().map(this::bodies).reduce("", String::concat))
        .append("</Body></Action>\n"));
    return out.append("</").append(kind).append(">\n").toString();
  }

  /** A list of variables; those of parameters are numbered from a number on. */
  private static String list(Element list, String name, String attributes, int order) {
    StringBuilder out = new StringBuilder("<" + name + attributes + ">\n");
    int next = order;
    for (Element variable : children(list, "variable")) {
      out.append("<Variable name=\"").append(variable.getAttribute("name")).append("\"").append(order == 0 ? ""
          : " orderWithinParamSet=\"" + next++ + "\"").append("><Type>").append(type(children(variable, "type").get(0)))
          .append("</Type>");
      below(variable, "initialValue", "simpleValue").forEach(it -> out.append("<InitialValue><SimpleValue value=\"")
          .append(escaped(it.getAttribute("value"))).append("\"/></InitialValue>"));
      out.append("</Variable>\n");
    }
    return out + "</" + name + ">\n";
  }

  private static String type(Element holder) {
    Element type = children(holder).get(0);
    return "<TypeName>" + (type.getTagName().equals("derived") ? type.getAttribute("name") : type.getTagName())
        + "</TypeName>";
  }

  // ---- bodies

  private String bodies(Element holder) {
    StringBuilder out = new StringBuilder();
    for (Element body : children(holder)) {
      String inside = switch (body.getTagName()) {
        case "ST" -> "<ST>" + escaped(body.getTextContent()) + "</ST>";
        case "LD", "FBD" -> networks(body);
        case "SFC" -> new Chart(body).written();
        default -> throw new AssertionError(body.getTagName());
      };
      out.append("<BodyContent xsi:type=\"").append(body.getTagName()).append("\">").append(inside)
          .append("</BodyContent>\n");
    }
    return out.toString();
  }

  private static boolean is(Element element, String pattern) {
    return element.getTagName().matches(pattern);
  }

  private static double place(Element element, String axis) {
    return Double.parseDouble(children(element, "position").get(0).getAttribute(axis));
  }

  /** Networks from the top down: what is connected is one, rails left out, each with rails and labels of its own. */
  private static String networks(Element body) {
    List<Element> all = children(body);
    Map<String, String> group = new HashMap<>();
    all.stream().filter(it -> !is(it, "label|leftPowerRail|rightPowerRail"))
        .forEach(it -> group.put(it.getAttribute("localId"), it.getAttribute("localId")));
    Map<String, String> connectors = new HashMap<>();
    all.stream().filter(it -> is(it, "connector")).forEach(it -> connectors.put(it.getAttribute("name"),
        it.getAttribute("localId")));
    for (Element element : all) {
      List<String> from = new ArrayList<>(connections(element).stream().map(it -> it.getAttribute("refLocalId"))
          .toList());
      if (is(element, "continuation")) {
        from.add(connectors.get(element.getAttribute("name")));
      }
      for (String each : from) {
        String old = group.get(each);
        String own = group.get(element.getAttribute("localId"));
        if (old != null && own != null) {
          group.replaceAll((id, number) -> number.equals(old) ? own : number);
        }
      }
    }
    Map<String, List<Element>> members = new LinkedHashMap<>();
    all.stream().filter(it -> group.containsKey(it.getAttribute("localId"))).forEach(it -> members.computeIfAbsent(
        group.get(it.getAttribute("localId")), unused -> new ArrayList<>()).add(it));
    List<Element> labels = new ArrayList<>(all.stream().filter(it -> is(it, "label")).sorted((one, other) ->
        Double.compare(place(one, "y"), place(other, "y"))).toList());
    List<List<Element>> ordered = members.values().stream().sorted(Comparator.comparingDouble((List<Element> it) ->
        extent(it, true)).thenComparingDouble(it -> it.stream().mapToDouble(each -> place(each, "x")).min()
            .orElseThrow())).toList();
    StringBuilder out = new StringBuilder();
    boolean ladder = is(body, "LD");
    int number = 1;
    for (List<Element> each : ordered) {
      List<Element> here = new ArrayList<>(each);
      all.stream().filter(it -> is(it, "leftPowerRail")).forEach(here::add);
      String label = "";
      while (!labels.isEmpty() && place(labels.get(0), "y") <= extent(each, false)) {
        out.append(label.isEmpty() ? "" : labelled(label, number++, ladder));
        label = labels.remove(0).getAttribute("label");
      }
      out.append(ladder ? "<Rung" : "<Network xsi:type=\"FbdNetwork\"").append(label.isEmpty() ? "" : " label=\""
          + label + "\"").append(" evaluationOrder=\"").append(number++).append("\">\n")
          .append(new Drawn(here).written()).append(ladder ? "</Rung>\n" : "</Network>\n");
    }
    for (Element label : labels) {
      out.append(labelled(label.getAttribute("label"), number++, ladder));
    }
    return out.toString();
  }

  /** A network with nothing in it: a network has one label at most. */
  private static String labelled(String label, int number, boolean ladder) {
    return (ladder ? "<Rung" : "<Network xsi:type=\"FbdNetwork\"") + " label=\"" + label + "\" evaluationOrder=\""
        + number + "\"/>\n";
  }

  private static double extent(List<Element> elements, boolean top) {
    return elements.stream().mapToDouble(it -> place(it, "y")).reduce(top ? Math::min : Math::max).orElseThrow();
  }

  private static List<Element> connections(Element element) {
    List<Element> found = new ArrayList<>(below(element, "connectionPointIn", "connection"));
    for (String list : List.of("inputVariables", "inOutVariables")) {
      found.addAll(below(element, list, "variable", "connectionPointIn", "connection"));
    }
    found.addAll(below(element, "condition", "connectionPointIn", "connection"));
    return found;
  }

  /** Elements whose places are numbered together. */
  private static class Drawn {
    private final Map<String, Integer> places = new HashMap<>();
    final List<Element> elements;

    Drawn(List<Element> elements) {
      this.elements = elements;
    }

    /** The number of a place at which something comes out. */
    int out(String key) {
      return places.computeIfAbsent(key, unused -> places.size() + 1);
    }

    String point(Element element, String output) {
      return "<ConnectionPointOut connectionPointOutId=\"" + out(element.getAttribute("localId") + "." + output)
          + "\"/>";
    }

    String in(List<Element> connections) {
      StringBuilder text = new StringBuilder("<ConnectionPointIn>");
      connections.forEach(it -> text.append("<Connection refConnectionPointOutId=\"").append(out(
          it.getAttribute("refLocalId") + "." + it.getAttribute("formalParameter"))).append("\"/>"));
      return text + "</ConnectionPointIn>";
    }

    String in(Element element) {
      return in(below(element, "connectionPointIn", "connection"));
    }

    String written() {
      StringBuilder out = new StringBuilder();
      elements.forEach(element -> out.append(written(element)));
      return out.toString();
    }

    static String position(Element element) {
      return "<RelPosition x=\"" + place(element, "x") + "\" y=\"" + place(element, "y") + "\"/>";
    }

    String object(String kind, String type, Element element, String attributes, String inside) {
      return "<" + kind + " xsi:type=\"" + type + "\"" + attributes + ">" + position(element) + inside + "</" + kind
          + ">\n";
    }

    String written(Element element) {
      return switch (element.getTagName()) {
        case "leftPowerRail" -> object("LdObject", "LeftPowerRail", element, "", point(element, ""));
        case "contact" -> object("LdObject", "Contact", element, marks(element, "") + operand(element, "variable"),
            in(element) + point(element, ""));
        case "coil" -> object("LdObject", "Coil", element, marks(element, "latch") + operand(element, "variable"),
            in(element) + point(element, ""));
        case "inVariable" -> object("FbdObject", "DataSource", element, identifier(element), point(element, ""));
        case "outVariable" -> object("FbdObject", "DataSink", element, identifier(element), in(element));
        case "jump" -> object("FbdObject", "Jump", element, " targetNetworkLabel=\"" + element.getAttribute("label")
            + "\"", in(element));
        case "return" -> object("FbdObject", "Return", element, "", in(element));
        case "connector" -> object("CommonObject", "Connector", element, " label=\"" + element.getAttribute("name")
            + "\"", in(element));
        case "continuation" -> object("CommonObject", "Continuation", element, " label=\""
            + element.getAttribute("name") + "\"", point(element, ""));
        case "block" -> block(element);
        default -> throw new AssertionError(element.getTagName());
      };
    }

    private static String marks(Element element, String latch) {
      String marks = "";
      for (String mark : List.of("negated", "edge", "storage")) {
        String value = element.getAttribute(mark);
        marks += value.isEmpty() ? "" : " " + (mark.equals("storage") ? latch : mark) + "=\"" + value + "\"";
      }
      return marks;
    }

    private static String operand(Element element, String child) {
      return " operand=\"" + escaped(children(element, child).get(0).getTextContent()) + "\"";
    }

    private static String identifier(Element element) {
      return " identifier=\"" + escaped(children(element, "expression").get(0).getTextContent()) + "\"";
    }

    private String block(Element element) {
      StringBuilder text = new StringBuilder();
      for (String kind : List.of("Input", "Output")) {
        String list = kind.toLowerCase(Locale.ROOT) + "Variables";
        text.append("<").append(kind).append("Variables>");
        for (Element pin : below(element, list, "variable")) {
          String name = pin.getAttribute("formalParameter");
          text.append("<").append(kind).append("Variable parameterName=\"").append(name).append("\"")
              .append(marks(pin, "")).append(">").append(kind.equals("Input") ? in(pin) : point(element, name))
              .append("</").append(kind).append("Variable>");
        }
        text.append("</").append(kind).append("Variables>");
      }
      return object("FbdObject", "Block", element, " typeName=\"" + element.getAttribute("typeName") + "\""
          + (element.hasAttribute("instanceName") ? " instanceName=\"" + element.getAttribute("instanceName") + "\""
          : ""), text.toString());
    }
  }

  /** A chart: its places are numbered together; those of a selection bear the priorities of what comes from them. */
  private final class Chart extends Drawn {
    private final Map<String, Element> byId = new HashMap<>();

    Chart(Element body) {
      super(children(body));
      elements.forEach(element -> byId.put(element.getAttribute("localId"), element));
    }

    /** The elements that take from one. */
    private List<Element> after(Element element) {
      return elements.stream().filter(it -> connections(it).stream().anyMatch(from -> from.getAttribute("refLocalId")
          .equals(element.getAttribute("localId")))).toList();
    }

    /** A line to an element: from a place of its own where it leaves a branch. */
    private String line(Element connection, Element to) {
      Element from = byId.get(connection.getAttribute("refLocalId"));
      return "<Connection refConnectionPointOutId=\"" + out(from.getAttribute("localId") + (is(from, ".*Divergence")
          ? " to " + to.getAttribute("localId") : is(to, "actionBlock") ? " does" : ".")) + "\"/>";
    }

    private String lines(Element element) {
      StringBuilder text = new StringBuilder("<ConnectionPointIn>");
      below(element, "connectionPointIn", "connection").forEach(it -> text.append(line(it, element)));
      if (!jumps && is(element, "step")) {
        elements.stream().filter(it -> is(it, "jumpStep") && it.getAttribute("targetName").equals(
            element.getAttribute("name"))).forEach(jump -> below(jump, "connectionPointIn", "connection")
                .forEach(it -> text.append(line(it, jump))));
      }
      return text + "</ConnectionPointIn>";
    }

    /** One place for each line into a convergence. */
    private String each(Element element) {
      StringBuilder text = new StringBuilder();
      below(element, "connectionPointIn", "connection").forEach(it -> text.append("<ConnectionPointIn>")
          .append(line(it, element)).append("</ConnectionPointIn>"));
      return text.toString();
    }

    private String ways(Element divergence) {
      StringBuilder text = new StringBuilder();
      for (Element to : after(divergence)) {
        Element transition = is(to, "transition") || is(divergence, "sim.*") ? to : after(to).get(0);
        String priority = transition.getAttribute("priority");
        text.append("<ConnectionPointOut connectionPointOutId=\"").append(out(divergence.getAttribute("localId")
            + " to " + to.getAttribute("localId"))).append("\"").append(priority.isEmpty() || is(divergence, "sim.*")
                ? "" : " priority=\"" + priority + "\"").append("/>");
      }
      return text.toString();
    }

    @Override
    String written(Element element) {
      return switch (element.getTagName()) {
        case "step" -> object("SfcObject", "Step", element, " name=\"" + element.getAttribute("name") + "\""
            + (element.hasAttribute("initialStep") ? " initialStep=\"" + element.getAttribute("initialStep") + "\""
            : ""), lines(element) + point(element, "") + "<ConnectionPointOutAction connectionPointOutId=\""
            + out(element.getAttribute("localId") + " does") + "\"/>");
        case "transition" -> object("SfcObject", "Transition", element, "", lines(element) + point(element, "")
            + "<Condition>" + condition(children(element, "condition").get(0)) + "</Condition>");
        case "selectionDivergence" -> object("SfcObject", "SelectionDivergence", element, "", lines(element)
            + ways(element));
        case "simultaneousDivergence" -> object("SfcObject", "SimultaneousDivergence", element, "", lines(element)
            + ways(element));
        case "selectionConvergence" -> object("SfcObject", "SelectionConvergence", element, "", each(element)
            + point(element, ""));
        case "simultaneousConvergence" -> object("SfcObject", "SimultaneousConvergence", element, "", each(element)
            + point(element, ""));
        case "jumpStep" -> jumps ? object("SfcObject", "rxt:JumpStep", element, " targetStepName=\""
            + element.getAttribute("targetName") + "\"", lines(element)) : "";
        case "actionBlock" -> object("CommonObject", "ActionBlocks", element, "", lines(element) + actions(element));
        default -> super.written(element);
      };
    }

    private String condition(Element condition) {
      for (Element inline : children(condition, "inline")) {
        return "<TextualPredicate><PredicateContent xsi:type=\"ST\"><ST>" + escaped(inline.getTextContent())
            + "</ST></PredicateContent></TextualPredicate>";
      }
      return "<GraphicalPredicate>" + in(condition)
          + "<GraphicalExpression xsi:type=\"FbdNetwork\" evaluationOrder=\"0\"/></GraphicalPredicate>";
    }

    private String actions(Element block) {
      StringBuilder text = new StringBuilder();
      for (Element action : children(block, "action")) {
        text.append("<ActionBlock><ActionQualifier qualifier=\"").append(action.getAttribute("qualifier")).append("\"")
            .append(action.hasAttribute("duration") ? " duration=\"" + action.getAttribute("duration") + "\"" : "")
            .append("/><ReferenceName>").append(children(action, "reference").get(0).getAttribute("name"))
            .append("</ReferenceName></ActionBlock>");
      }
      return text.toString();
    }
  }
}
