package dev.pawl.logic.drawn;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A chart in a few lines, and its writer:
 *
 * <pre>
 * initial A  N:q  D:r:T#20ms     a step with what it controls
 * step B     S:act
 * trans A -> B,C : a AND b       to both at once; A,B -> C leaves both at once; a priority before the arrow is 1>;
 *                                @7 at the end is how far from the left it is drawn; -> ^B is a jump to B
 * action act : n := n + 1;       the body of an action
 * draw 100 block TON t IN<=a PT<=T#20ms      an element of a {@link Sketch} beside the steps;
 * trans A -> B : #100.Q          takes from it
 * </pre>
 */
final class ChartXml {

  private final StringBuilder out = new StringBuilder();
  private final StringBuilder actions = new StringBuilder();
  private final Map<String, Integer> steps = new LinkedHashMap<>();
  private final List<String[]> transitions = new ArrayList<>();
  private final List<String> lines;
  private final List<String> drawn = new ArrayList<>();
  private int next = 1;

  private ChartXml(List<String> lines) {
    this.lines = lines;
  }

  /** A program with the chart as its body. */
  static String program(String variables, List<String> lines) {
    ChartXml chart = new ChartXml(lines);
    chart.write();
    String declared = variables.isBlank() ? "" : "<localVars>\n" + SketchXml.variables(variables) + "</localVars>\n";
    return "<pou name=\"Main\" pouType=\"program\"><interface>\n" + declared + "</interface>\n<actions>" + chart.actions
        + "</actions>\n<body><SFC>\n" + SketchXml.elements(Sketch.of(chart.drawn)) + chart.out
            + "</SFC></body></pou>\n";
  }

  private void write() {
    for (String line : lines) {
      String[] words = line.split("\\s+", 3);
      if (words[0].equals("step") || words[0].equals("initial")) {
        steps.put(words[1], next++);
      } else if (words[0].equals("trans")) {
        String[] sides = line.substring(6).split("\\s*(->|:|@)\\s*", 4);
        String id = Integer.toString(next++);
        transitions.add(new String[] {sides[0].strip(), sides[1], sides[2], id, sides.length > 3 ? sides[3] : id});
      } else if (words[0].equals("draw")) {
        drawn.add(line.substring(5));
      } else {
        actions.append("<action name=\"").append(words[1]).append("\"><body><ST><xhtml:p>")
            .append(SketchXml.escaped(line.substring(line.indexOf(':') + 1)))
                .append("</xhtml:p></ST></body></action>\n");
      }
    }
    for (String[] transition : transitions) {
      if (transition[2].startsWith("#")) {
        drawn.add("9" + transition[3] + " transition x < " + transition[2].substring(1));
      }
    }
    Map<String, Integer> leaving = divergences();
    Map<Integer, Integer> branching = new LinkedHashMap<>();
    for (String[] transition : transitions) {
      transition(transition, leaving, branching);
    }
    for (String line : lines) {
      if (line.startsWith("step") || line.startsWith("initial")) {
        step(line.split("\\s+"), branching);
      }
    }
  }

  /** A step that several transitions leave has a divergence below it. */
  private Map<String, Integer> divergences() {
    Map<String, Integer> leaving = new LinkedHashMap<>();
    steps.forEach((name, id) -> {
      leaving.put(name, id);
      if (transitions.stream().filter(it -> List.of(it[0].replaceFirst(".*>", "").split(",")).contains(name)).count()
          > 1) {
        leaving.put(name, next);
        element("selectionDivergence", next++, "", point(List.of(id)) + "<connectionPointOut formalParameter=\"\"/>");
      }
    });
    return leaving;
  }

  private void transition(String[] transition, Map<String, Integer> leaving, Map<Integer, Integer> branching) {
    int id = Integer.parseInt(transition[3]);
    String priority = transition[0].contains(">") ? " priority=\"" + transition[0].split(">")[0] + "\"" : "";
    List<Integer> before = new ArrayList<>();
    for (String name : transition[0].replaceFirst(".*>", "").split(",")) {
      before.add(leaving.get(name));
    }
    if (before.size() > 1) {
      element("simultaneousConvergence", next, "", point(before) + "<connectionPointOut/>");
      before = List.of(next++);
    }
    element("transition", id, priority, point(before) + "<connectionPointOut/><condition>"
        + condition(transition[2]) + "</condition>", transition[4]);
    if (transition[1].contains(",")) {
      element("simultaneousDivergence", next, "", point(List.of(id)) + "<connectionPointOut formalParameter=\"\"/>");
      branching.put(id, next++);
    }
    for (String name : transition[1].split(",")) {
      if (name.startsWith("^")) {
        element("jumpStep", next++, " targetName=\"" + name.substring(1) + "\"", point(List.of(branching.getOrDefault(
            id, id))));
      }
    }
  }

  private static String condition(String text) {
    if (!text.startsWith("#")) {
      return "<inline name=\"\"><ST><xhtml:p>" + SketchXml.escaped(text) + "</xhtml:p></ST></inline>";
    }
    String[] pieces = text.substring(1).split("\\.");
    return "<connectionPointIn><connection refLocalId=\"" + pieces[0] + "\""
        + (pieces.length > 1 ? " formalParameter=\"" + pieces[1] + "\"" : "") + "/></connectionPointIn>";
  }

  private void step(String[] words, Map<Integer, Integer> branching) {
    int id = steps.get(words[1]);
    List<Integer> before = new ArrayList<>();
    for (String[] transition : transitions) {
      if (List.of(transition[1].split(",")).contains(words[1])) {
        int from = Integer.parseInt(transition[3]);
        before.add(branching.getOrDefault(from, from));
      }
    }
    if (before.size() > 1) {
      element("selectionConvergence", next, "", point(before) + "<connectionPointOut/>");
      before = List.of(next++);
    }
    element("step", id, " name=\"" + words[1] + "\"" + (words[0].equals("initial") ? " initialStep=\"true\"" : ""),
        (before.isEmpty() ? "" : point(before)) + "<connectionPointOut formalParameter=\"\"/>"
        + "<connectionPointOutAction formalParameter=\"\"/>");
    StringBuilder controls = new StringBuilder();
    for (int i = 2; i < words.length; i++) {
      String[] pieces = words[i].split(":");
      controls.append("<action localId=\"").append(next++).append("\" qualifier=\"").append(pieces[0]).append("\"")
          .append(pieces.length > 2 ? " duration=\"" + pieces[2] + "\"" : "")
          .append("><relPosition x=\"0\" y=\"0\"/><reference name=\"").append(pieces[1]).append("\"/></action>");
    }
    if (!controls.isEmpty()) {
      element("actionBlock", next++, "", "<connectionPointIn><connection refLocalId=\"" + id
          + "\"/></connectionPointIn>"
          + controls);
    }
  }

  /** One place at which everything comes in, or, for a convergence, as many. */
  private static String point(List<Integer> from) {
    StringBuilder points = new StringBuilder();
    from.forEach(id -> points.append("<connectionPointIn><connection refLocalId=\"").append(id)
        .append("\"/></connectionPointIn>"));
    return points.toString();
  }

  private void element(String name, int id, String attributes, String inside) {
    element(name, id, attributes, inside, Integer.toString(id));
  }

  private void element(String name, int id, String attributes, String inside, String x) {
    out.append("<").append(name).append(" localId=\"").append(id).append("\"").append(attributes)
        .append("><position x=\"").append(x).append("\" y=\"0\"/>").append(inside).append("</").append(name)
        .append(">\n");
  }
}
