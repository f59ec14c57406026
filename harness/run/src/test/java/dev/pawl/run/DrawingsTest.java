package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.report.model.Drawing;
import dev.pawl.report.model.Drawing.Box;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Report;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What wrote an output, as it was drawn: the values are those of its evaluation, worked out by hand. */
class DrawingsTest {

  private static final long MS = 1_000_000L;

  @TempDir
  private Path folder;

  @BeforeEach
  void makeTheRide() throws IOException {
    Files.writeString(folder.resolve("ride.rules"), """
        ride "Pebble"
        resolution 10 ms
        input go : bool
        output run : bool
        rule R "it never runs"
          basis practice
          never run
        """);
    Files.writeString(folder.resolve("day.csv"), "time_ms,signal,value\n0,go,0\n0,run,0\n10,go,1\n100,go,1\n");
  }

  private static String element(String name, int id, int x, int y, String attributes, String inside) {
    return "<" + name + " localId=\"" + id + "\"" + attributes + "><position x=\"" + x + "\" y=\"" + y + "\"/>" + inside
        + "</" + name + ">\n";
  }

  private static String in(int... from) {
    StringBuilder links = new StringBuilder("<connectionPointIn>");
    for (int id : from) {
      links.append("<connection refLocalId=\"").append(id).append("\"/>");
    }
    return links + "</connectionPointIn>";
  }

  private static String contact(int id, int y, String variable, String attributes, int... from) {
    return element("contact", id, 10 * id, y, attributes, in(from) + "<variable>" + variable + "</variable>");
  }

  private static String coil(int id, int y, String variable, String attributes, int... from) {
    return element("coil", id, 10 * id, y, attributes, in(from) + "<variable>" + variable + "</variable>");
  }

  private static String block(int id, String type, String instance, Map<String, Integer> inputs, String... outputs) {
    StringBuilder pins = new StringBuilder("<inputVariables>");
    inputs.forEach((name, from) -> pins.append("<variable formalParameter=\"").append(name).append("\">")
        .append(in(from)).append("</variable>"));
    pins.append("</inputVariables><inOutVariables/><outputVariables>");
    for (String output : outputs) {
      pins.append("<variable formalParameter=\"").append(output).append("\"><connectionPointOut/></variable>");
    }
    return element("block", id, 10 * id, 10, " typeName=\"" + type + "\"" + instance, pins + "</outputVariables>");
  }

  private static String pou(String kind, String name, String variables, String body) {
    return "<pou name=\"" + name + "\" pouType=\"" + kind + "\"><interface>" + variables + "</interface><body>" + body
        + "</body></pou>\n";
  }

  private static String variable(String name, String type) {
    return "<variable name=\"" + name + "\"><type>" + type + "</type></variable>";
  }

  private static final String PINS = "<inputVars>" + variable("go", "<BOOL/>") + "</inputVars><outputVars>"
      + variable("run", "<BOOL/>") + "</outputVars>";

  private static final String RAIL = element("leftPowerRail", 1, 0, 0, "", "<connectionPointOut/>");

  /** The drawings of the first finding. */
  private List<Drawing> drawings(String pous) throws IOException {
    return drawings(pous, "", Map.of());
  }

  /** The same, with signals that are variables of other names. */
  private List<Drawing> drawings(String pous, String configuration, Map<String, String> variables)
      throws IOException {
    return finding(pous, configuration, variables).drawings();
  }

  private FindingResult finding(String pous, String configuration, Map<String, String> variables)
      throws IOException {
    Path project = Files.writeString(folder.resolve("ride.xml"), """
        <?xml version="1.0" encoding="UTF-8"?>
        <project xmlns="http://www.plcopen.org/xml/tc6_0201">
        <types><dataTypes/><pous>
        """ + pous + "</pous></types><instances><configurations>" + configuration
            + "</configurations></instances></project>\n");
    List<String> logic = new ArrayList<>(List.of(project.toString()));
    if (pous.contains("externalVars")) {
      logic.add(Files.writeString(folder.resolve("globals.st"), "VAR_GLOBAL run : BOOL; END_VAR\n").toString());
    }
    RuleFiles rules = RuleFiles.load(List.of(folder.resolve("ride.rules").toString()));
    Session session = Session.by(rules).withController(LogicController.of(rules, LogicFiles.load(logic),
        LogicSettings.DEFAULT.and(variables)));
    Report report = session.judge(session.traces(List.of(folder.resolve("day.csv").toString())));
    FindingResult finding = report.traces().get(0).rules().get(0).broken().get(0);
    assertThat(finding.evidence().get(0).writtenBy()).isPresent();
    return finding;
  }

  private Drawing drawing(String body, String locals) throws IOException {
    List<Drawing> drawings = drawings(pou("program", "Main", PINS + locals, body));
    assertThat(drawings).hasSize(1);
    return drawings.get(0);
  }

  /** Of the elements of one line that one is named which bears the name of what was written. */
  @Test
  void ofOneLineTheElementOfTheVariableIsNamed() throws IOException {
    String coils = coil(3, 0, "lamp", "", 2).strip() + coil(4, 40, "run", "", 2).strip() + coil(5, 80, "horn", "", 2);
    FindingResult finding = finding(pou("program", "Main", PINS + "<localVars>" + variable("lamp", "<BOOL/>")
        + variable("horn", "<BOOL/>") + "</localVars>", "<LD>" + RAIL + contact(2, 0, "go", "", 1) + coils + "</LD>"), "",
        Map.of());
    assertThat(finding.evidence().get(0).writtenBy().orElseThrow().text()).isEqualTo("Main, network 1, coil run");
  }

  private static Box box(Drawing drawing, String name) {
    return drawing.boxes().stream().filter(it -> it.name().equals(name)).findFirst().orElseThrow();
  }

  @Test
  void aContactHasTheValueThatItWasEvaluatedWith() throws IOException {
    // m turns in each scan, below the rung that reads it: in the scan at 10 ms from TRUE to FALSE.
    Drawing drawing = drawing("<LD>" + RAIL + contact(2, 10, "m", "", 1) + coil(3, 10, "run", "", 2)
        + contact(4, 200, "m", " negated=\"true\"", 1) + coil(5, 200, "m", "", 4) + "</LD>",
        "<localVars>" + variable("m", "<BOOL/>") + "</localVars>");
    assertThat(drawing.title()).isEqualTo("Main, network 1");
    assertThat(drawing.time()).isEqualTo(10 * MS);
    assertThat(box(drawing, "m").value()).isEqualTo("TRUE");
    assertThat(box(drawing, "m").outputs().get(0).value()).isEqualTo("TRUE");
    assertThat(box(drawing, "run").value()).isEqualTo("TRUE");
    assertThat(box(drawing, "run").writes()).isTrue();
    assertThat(drawing.boxes()).as("the second network has no part in it").hasSize(3);
  }

  @Test
  void aTimerShowsItsOutputs() throws IOException {
    // On at 10 ms, so Q at 30 ms, when 20 ms have passed.
    Drawing drawing = drawing("<LD>" + RAIL + contact(2, 10, "go", "", 1) + element("inVariable", 3, 20, 30, "",
        "<connectionPointOut/><expression>T#20ms</expression>") + block(4, "TON", " instanceName=\"t\"",
        Map.of("IN", 2, "PT", 3), "Q", "ET") + element("coil", 5, 90, 10, "",
        "<connectionPointIn><connection refLocalId=\"4\" formalParameter=\"Q\"/></connectionPointIn>"
        + "<variable>run</variable>") + "</LD>",
        "<localVars>" + variable("t", "<derived name=\"TON\"/>") + "</localVars>");
    assertThat(drawing.time()).isEqualTo(30 * MS);
    assertThat(box(drawing, "TON").outputs()).extracting(Drawing.Port::value).containsExactly("TRUE", "20 ms");
    assertThat(drawing.wires()).extracting(Drawing.Wire::value).containsOnly("TRUE", "T#20ms");
  }

  @Test
  void aLoopShowsWhatTheScanBeforeGave() throws IOException {
    Drawing drawing = drawing("<FBD>" + element("inVariable", 1, 0, 10, "",
        "<connectionPointOut/><expression>go</expression>") + block(2, "OR", "", Map.of("IN1", 1, "IN2", 2), "OUT")
        + element("outVariable", 3, 90, 10, "", in(2) + "<expression>run</expression>") + "</FBD>", "");
    Drawing.Wire back = drawing.wires().stream().filter(Drawing.Wire::last).findFirst().orElseThrow();
    assertThat(back.value()).isEqualTo("FALSE");
    assertThat(box(drawing, "OR").outputs().get(0).value()).isEqualTo("TRUE");
    assertThat(box(drawing, "go").value()).isEqualTo("TRUE");
  }

  @Test
  void aChartShowsTheStepThatControlsTheOutput() throws IOException {
    Drawing drawing = drawing("<SFC>" + element("step", 1, 0, 0, " name=\"Wait\" initialStep=\"true\"",
        "<connectionPointOut formalParameter=\"\"/>") + element("transition", 2, 0, 20, "", in(1)
        + "<connectionPointOut/><condition><inline name=\"\"><ST>go</ST></inline></condition>")
        + element("step", 3, 0, 40, " name=\"Move\"", in(2) + "<connectionPointOut formalParameter=\"\"/>")
        + element("actionBlock", 4, 50, 40, "", in(3) + "<action localId=\"5\" qualifier=\"D\" duration=\"T#20ms\">"
        + "<relPosition x=\"0\" y=\"0\"/><reference name=\"run\"/></action>") + element("transition", 6, 0, 60, "",
        in(3) + "<connectionPointOut/><condition><inline name=\"\"><ST>NOT go</ST></inline></condition>")
        + element("jumpStep", 7, 0, 80, " targetName=\"Wait\"", in(6)) + "</SFC>", "");
    assertThat(drawing.time()).isEqualTo(30 * MS);
    Box step = box(drawing, "Move");
    assertThat(step.value()).isEqualTo("active for 20 ms");
    assertThat(step.outputs()).extracting(Drawing.Port::name).containsExactly("D 20 ms run");
    assertThat(box(drawing, "go").value()).isEqualTo("not enabled");
    assertThat(box(drawing, "NOT go").value()).isEqualTo("not met");
    assertThat(box(drawing, "NOT go").inputs()).extracting(Drawing.Port::value).containsExactly("TRUE");
  }

  private static final String DRIVE = pou("functionBlock", "Drive", "<inputVars>" + variable("on", "<BOOL/>")
      + "</inputVars><outputVars>" + variable("run", "<BOOL/>") + "</outputVars><localVars>" + variable("n", "<INT/>")
      + "</localVars>", "<LD>" + RAIL + contact(2, 10, "on", "", 1) + coil(3, 10, "run", "", 2) + "</LD>");

  private static String main(String body) {
    return pou("program", "Main", "<inputVars>" + variable("go", "<BOOL/>") + "</inputVars><localVars>"
        + variable("a", "<derived name=\"Drive\"/>") + variable("b", "<derived name=\"Drive\"/>") + "</localVars>",
        "<ST>" + body + "</ST>");
  }

  /** The other instance runs later in each scan, with what goes against it. */
  @Test
  void anOutputOfOneOfSeveralInstancesHasTheValuesOfThat() throws IOException {
    String both = DRIVE + main("a(on := go); b(on := NOT go);");
    Drawing one = drawings(both, "", Map.of("run", "Main.a.run")).get(0);
    assertThat(one.title()).isEqualTo("Drive, network 1, as Main.a");
    assertThat(one.time()).isEqualTo(10 * MS);
    assertThat(box(one, "on").value()).isEqualTo("TRUE");
    assertThat(box(one, "run").writes()).isTrue();
    Files.writeString(folder.resolve("day.csv"), "time_ms,signal,value\n0,go,1\n0,run,0\n20,go,0\n100,go,0\n");
    Drawing other = drawings(both, "", Map.of("run", "Main.b.run")).get(0);
    assertThat(other.title()).isEqualTo("Drive, network 1, as Main.b");
    assertThat(other.time()).isEqualTo(20 * MS);
    assertThat(box(other, "on").value()).isEqualTo("TRUE");
  }

  @Test
  void soHasAnOutputOfOneOfSeveralInstancesOfAProgram() throws IOException {
    String program = pou("program", "Lane", "<inputVars>" + variable("go", "<BOOL/>") + "</inputVars><outputVars>"
        + variable("run", "<BOOL/>") + "</outputVars>", "<LD>" + RAIL + contact(2, 10, "go", "", 1)
        + coil(3, 10, "run", "", 2) + "</LD>");
    Drawing drawing = drawings(program, "<configuration name=\"C\"><resource name=\"R\"><task name=\"t\""
        + " interval=\"T#10ms\" priority=\"1\"><pouInstance name=\"left\" typeName=\"Lane\"/>"
        + "<pouInstance name=\"right\" typeName=\"Lane\"/></task></resource></configuration>",
        Map.of("go", "left.go", "run", "left.run")).get(0);
    assertThat(drawing.title()).isEqualTo("Lane, network 1, as left");
    assertThat(box(drawing, "go").value()).as("no signal feeds that of the other").isEqualTo("TRUE");
  }

  @Test
  void soHasAChart() throws IOException {
    String chart = pou("functionBlock", "Drive", "<inputVars>" + variable("on", "<BOOL/>") + "</inputVars><outputVars>"
        + variable("run", "<BOOL/>") + "</outputVars>", "<SFC>" + element("step", 1, 0, 0,
        " name=\"Wait\" initialStep=\"true\"", "<connectionPointOut formalParameter=\"\"/>") + element("transition", 2,
        0, 20, "", in(1) + "<connectionPointOut/><condition><inline name=\"\"><ST>on</ST></inline></condition>")
        + element("step", 3, 0, 40, " name=\"Move\"", in(2) + "<connectionPointOut formalParameter=\"\"/>")
        + element("actionBlock", 4, 50, 40, "", in(3) + "<action localId=\"5\" qualifier=\"D\" duration=\"T#20ms\">"
        + "<relPosition x=\"0\" y=\"0\"/><reference name=\"run\"/></action>") + "</SFC>");
    Drawing drawing = drawings(chart + main("a(on := go); b(on := FALSE);"), "", Map.of("run", "Main.a.run")).get(0);
    assertThat(drawing.title()).isEqualTo("Drive, as Main.a");
    assertThat(drawing.time()).isEqualTo(30 * MS);
    assertThat(box(drawing, "Move").value()).isEqualTo("active for 20 ms");
  }

  @Test
  void whatSeveralInstancesWriteInTurnHasNoValuesToShow() throws IOException {
    String external = "<externalVars>" + variable("run", "<BOOL/>") + "</externalVars>";
    String block = pou("functionBlock", "Drive", "<inputVars>" + variable("on", "<BOOL/>") + "</inputVars>" + external,
        "<LD>" + RAIL + contact(2, 10, "on", "", 1) + coil(3, 10, "run", "", 2) + "</LD>");
    String one = pou("program", "Main", "<inputVars>" + variable("go", "<BOOL/>") + "</inputVars><localVars>"
        + variable("a", "<derived name=\"Drive\"/>") + variable("b", "<derived name=\"Drive\"/>") + "</localVars>",
        "<ST>a(on := go);</ST>");
    assertThat(drawings(block + one)).extracting(Drawing::title).containsExactly("Drive, network 1");
    assertThat(drawings(block + one.replace("a(on := go);", "a(on := go); b(on := go);"))).isEmpty();
  }
}
