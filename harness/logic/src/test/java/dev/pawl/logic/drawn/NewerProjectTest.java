package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * What the format of IEC 61131-10 has in a form of its own, written as its schema has it, with what comes of it worked
 * out by hand.
 */
class NewerProjectTest {

  private static final long MS = 1_000_000L;

  private static String project(String types, String resource) {
    return """
        <?xml version="1.0" encoding="UTF-8"?>
        <Project xmlns="www.iec.ch/public/TC65SC65BWG7TF10" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
        schemaVersion="1.0">
        <FileHeader companyName="" productName="" productVersion="1"/>
        <ContentHeader name="p" creationDateTime="2026-01-01T00:00:00"/>
        <Types><GlobalNamespace><NamespaceDecl name="Site">
        """ + types + "</NamespaceDecl></GlobalNamespace></Types>\n<Instances>" + (resource.isEmpty() ? ""
        : "<Configuration name=\"C\"><Resource name=\"R\" resourceTypeName=\"any\">\n" + resource
        + "</Resource></Configuration>") + "</Instances>\n</Project>\n";
  }

  private static String program(String name, String variables, String rest) {
    return "<Program name=\"" + name + "\">\n<Vars accessSpecifier=\"private\">" + variables(variables)
        + "</Vars>\n" + rest + "</Program>\n";
  }

  private static String variables(String declarations) {
    StringBuilder text = new StringBuilder();
    for (String declaration : declarations.split("; *")) {
      String[] sides = declaration.split(" : ");
      for (String name : sides[0].split(" ")) {
        text.append("<Variable name=\"").append(name).append("\"><Type><TypeName>").append(sides[1])
            .append("</TypeName></Type></Variable>\n");
      }
    }
    return text.toString();
  }

  private static String body(String kind, String inside) {
    return "<BodyContent xsi:type=\"" + kind + "\">" + inside + "</BodyContent>\n";
  }

  private static String text(String statements) {
    return body("ST", "<ST><![CDATA[" + statements + "]]></ST>");
  }

  private static String in(int... from) {
    StringBuilder text = new StringBuilder("<ConnectionPointIn><RelPosition x=\"0\" y=\"1\"/>");
    for (int each : from) {
      text.append("<Connection refConnectionPointOutId=\"").append(each).append("\"/>");
    }
    return text + "</ConnectionPointIn>";
  }

  private static String out(int number) {
    return "<ConnectionPointOut connectionPointOutId=\"" + number + "\"/>";
  }

  private static String object(String kind, String type, String attributes, String inside) {
    return "<" + kind + " xsi:type=\"" + type + "\" " + attributes + "><RelPosition x=\"1\" y=\"1\"/>" + inside + "</"
        + kind + ">\n";
  }

  private static String step(String name, boolean initial, int out, int does, int... from) {
    return object("SfcObject", "Step", "name=\"" + name + "\" initialStep=\"" + initial + "\"", in(from) + out(out)
        + "<ConnectionPointOutAction connectionPointOutId=\"" + does + "\"/>");
  }

  private static String transition(int from, int out, String condition) {
    return object("SfcObject", "Transition", "", in(from) + out(out) + "<Condition>" + condition + "</Condition>");
  }

  private static String written(String condition) {
    return "<TextualPredicate><PredicateContent xsi:type=\"ST\"><ST>" + condition
        + "</ST></PredicateContent></TextualPredicate>";
  }

  /** All projects of this class. */
  static List<String> all() {
    return List.of(conditions(), actions(), networks(), types(), application());
  }

  /** A value for each scan, 10 ms apart, while an input is as stated. */
  private static List<Long> values(ScanMachine machine, String input, List<Integer> given, String output) {
    List<Long> values = new ArrayList<>();
    for (int i = 0; i < given.size(); i++) {
      machine.set(input, given.get(i));
      assertThat(machine.scan(i * 10 * MS)).isEmpty();
      values.add(machine.word(output));
    }
    return values;
  }

  /**
   * A goes to B by a name, B to C by a comparing contact of a rung of its own, C to D by a block of a network of its
   * own, D to A by what is drawn beside the steps. The numbers of places begin anew in each drawing of a condition.
   */
  private static String conditions() {
    String rung = "<GraphicalPredicate>" + in(2) + "<GraphicalExpression xsi:type=\"LadderRung\" evaluationOrder=\"0\">"
        + object("LdObject", "LeftPowerRail", "", out(1)) + object("LdObject", "CompareContact",
            "compareOperator=\"&gt;=\" operand1=\"B.T\" operand2=\"T#20ms\"", in(1) + out(2) + "<Type>TIME</Type>")
        + "</GraphicalExpression></GraphicalPredicate>";
    String network = "<GraphicalPredicate>" + in(3)
        + "<GraphicalExpression xsi:type=\"FbdNetwork\" evaluationOrder=\"0\">"
        + object("FbdObject", "DataSource", "identifier=\"go\"", out(1)) + object("FbdObject", "DataSource",
            "identifier=\"no\"", out(2)) + object("FbdObject", "Block", "typeName=\"OR\"", "<InputVariables>"
        + "<InputVariable parameterName=\"IN1\" negated=\"true\">" + in(1) + "</InputVariable>"
        + "<InputVariable parameterName=\"IN2\">" + in(2) + "</InputVariable></InputVariables><OutputVariables>"
        + "<OutputVariable parameterName=\"OUT\">" + out(3) + "</OutputVariable></OutputVariables>")
        + "</GraphicalExpression></GraphicalPredicate>";
    String beside = "<GraphicalPredicate>" + in(90)
        + "<GraphicalExpression xsi:type=\"FbdNetwork\" evaluationOrder=\"0\"/></GraphicalPredicate>";
    return project(program("Main", "go no : BOOL", "<MainBody>" + body("SFC", step("A", true, 1, 11, 8)
        + transition(1, 2, "<Reference name=\"begin\"/>") + step("B", false, 3, 13, 2) + transition(3, 4, rung)
        + step("C", false, 5, 15, 4) + transition(5, 6, network) + step("D", false, 7, 17, 6)
        + object("FbdObject", "DataSource", "identifier=\"go\"", out(90)) + transition(7, 8, beside)) + "</MainBody>\n"
        + "<Transition name=\"begin\"><Condition><PredicateContent xsi:type=\"ST\"><ST>begin := go;</ST>"
        + "</PredicateContent></Condition></Transition>\n"), "");
  }

  @Test
  void conditionsByNameInRungsInNetworksAndBesideTheSteps() {
    ScanMachine machine = TestMachine.of(conditions());
    List<Integer> go = List.of(0, 0, 1, 1, 1, 1, 0, 0, 1, 1);
    List<String> steps = new ArrayList<>();
    for (int i = 0; i < go.size(); i++) {
      machine.set("go", go.get(i));
      assertThat(machine.scan(i * 10 * MS)).isEmpty();
      String active = "";
      for (String step : List.of("A", "B", "C", "D")) {
        active += machine.truth("Main." + step + ".X") ? step : "";
      }
      steps.add(active);
    }
    // B for 20 ms; C until go is FALSE; D until go is TRUE, and A for that scan.
    assertThat(steps).containsExactly("A", "A", "B", "B", "C", "C", "D", "D", "A", "B");
  }

  /** A variable by its whole path, an action by its name, and a body without one; a selection with priorities. */
  private static String actions() {
    String blocks = object("CommonObject", "ActionBlocks", "", in(12) + "<ActionBlock><ComplexOperand>q</ComplexOperand>"
        + "</ActionBlock><ActionBlock><ActionQualifier qualifier=\"P1\"/><ReferenceName>Count</ReferenceName></ActionBlock>"
        + "<ActionBlock><ActionQualifier qualifier=\"L\" duration=\"T#15ms\"/><Inline>" + text("m := m + 100;")
        + "</Inline></ActionBlock>");
    return project(program("Main", "go q : BOOL; n m : INT", "<MainBody>" + body("SFC", step("A", true, 1, 11, 7)
        + object("SfcObject", "SelectionDivergence", "mutualExclusion=\"false\"", in(1)
        + "<ConnectionPointOut connectionPointOutId=\"20\" priority=\"2\"/>"
        + "<ConnectionPointOut connectionPointOutId=\"21\" priority=\"1\"/>") + transition(20, 2, written("go"))
        + transition(21, 3, written("go")) + step("B", false, 4, 13, 2) + step("C", false, 5, 12, 3) + blocks
        + transition(4, 8, written("TRUE")) + transition(5, 9, written("NOT go"))
        + object("SfcObject", "SelectionConvergence", "", in(8) + in(9) + out(7))) + "</MainBody>\n"
        + "<Action name=\"Count\"><Body>" + text("n := n + 1;") + "</Body></Action>\n"), "");
  }

  @Test
  void actionsByNameByPathAndWithABodyOfTheirOwn() {
    List<Integer> go = List.of(0, 1, 1, 1, 1, 0, 1);
    assertThat(values(TestMachine.of(actions()), "go", go, "q")).as("C goes before B").containsExactly(0L, 1L, 1L, 1L,
        1L, 0L, 1L);
    assertThat(values(TestMachine.of(actions()), "go", go, "n")).containsExactly(0L, 1L, 1L, 1L, 1L, 1L, 2L);
    // Active at 10 and 20 ms, and once more at 30 ms.
    assertThat(values(TestMachine.of(actions()), "go", go, "m")).containsExactly(0L, 100L, 200L, 300L, 300L, 300L, 400L);
  }

  /** Rungs run by their evaluationOrder, wherever they stand; each numbers its places anew; a jump names a network. */
  private static String networks() {
    String rail = object("LdObject", "LeftPowerRail", "", out(1));
    String first = "<Rung evaluationOrder=\"1\">" + rail + object("LdObject", "Contact", "operand=\"a\"", in(1) + out(2))
        + object("FbdObject", "Jump", "targetNetworkLabel=\"over\"", in(2)) + "</Rung>";
    String second = "<Rung evaluationOrder=\"2\">" + rail + object("LdObject", "Contact", "operand=\"a\" negated=\"true\"",
        in(1) + out(2)) + object("LdObject", "Coil", "operand=\"q\" latch=\"set\"", in(2)) + "</Rung>";
    String third = "<Rung label=\"over\" evaluationOrder=\"3\">" + rail + object("LdObject", "Coil",
        "operand=\"done\"", in(1)) + object("CommonObject", "Comment", "", "<Content xsi:type=\"SimpleText\">so</Content>")
        + "</Rung>";
    return project(program("Main", "a q done : BOOL", "<MainBody>" + body("LD", third + second + first)
        + "</MainBody>\n"), "");
  }

  @Test
  void rungsByTheirOrderWithPlacesOfTheirOwn() {
    assertThat(values(TestMachine.of(networks()), "a", List.of(1, 1, 0, 1), "q")).containsExactly(0L, 0L, 1L, 1L);
    assertThat(values(TestMachine.of(networks()), "a", List.of(1), "done")).containsExactly(1L);
  }

  private static String types() {
    String number = "<Type><TypeName>INT</TypeName></Type>";
    String row = "<InstantlyDefinedType xsi:type=\"ArrayTypeSpec\"><BaseType><TypeName>INT</TypeName></BaseType>"
        + "<DimensionSpec dimensionNumber=\"1\"><IndexRange lower=\"1\" upper=\"3\"/></DimensionSpec>"
        + "</InstantlyDefinedType>";
    return project("<DataTypeDecl name=\"Mode\"><UserDefinedTypeSpec xsi:type=\"EnumTypeSpec\">"
        + "<Enumerator name=\"OFF\"/><Enumerator name=\"FAST\"/><InitialValue>FAST</InitialValue></UserDefinedTypeSpec>"
        + "</DataTypeDecl>\n<DataTypeDecl name=\"Level\"><UserDefinedTypeSpec xsi:type=\"SubrangeTypeSpec\">"
        + "<Range lower=\"0\" upper=\"9\"/><BaseType><TypeName>INT</TypeName></BaseType></UserDefinedTypeSpec>"
        + "</DataTypeDecl>\n<DataTypeDecl name=\"Pair\"><UserDefinedTypeSpec xsi:type=\"StructTypeSpec\"><Member name=\"a\">"
        + number + "</Member><Member name=\"b\">" + number + "</Member></UserDefinedTypeSpec></DataTypeDecl>\n"
        + "<DataTypeDecl name=\"Five\"><UserDefinedTypeSpec xsi:type=\"DirectlyDerivedTypeSpec\"><BaseType>"
        + "<TypeName>INT</TypeName></BaseType><InitialValue><SimpleValue value=\"5\"/></InitialValue>"
        + "</UserDefinedTypeSpec></DataTypeDecl>\n<Program name=\"Main\"><Vars accessSpecifier=\"private\">"
        + variables("m : Mode; l : Level; f : Five; fast : BOOL; n : INT") + "<Variable name=\"r\"><Type>" + row
        + "</Type><InitialValue><ArrayValue><Value repetitionValue=\"2\"><SimpleValue value=\"4\"/></Value><Value>"
        + "<SimpleValue value=\"6\"/></Value></ArrayValue></InitialValue></Variable><Variable name=\"p\"><Type>"
        + "<TypeName>Pair</TypeName></Type><InitialValue><StructValue><Value member=\"b\"><SimpleValue value=\"30\"/>"
        + "</Value></StructValue></InitialValue></Variable></Vars><MainBody>"
        + text("fast := m = Mode#FAST; l := 9; n := r[1] + r[2] + r[3] + p.a + p.b + f;") + "</MainBody></Program>\n", "");
  }

  @Test
  void typesAndFirstValuesOfAllForms() {
    ScanMachine machine = TestMachine.scanned(TestMachine.of(types()));
    assertThat(machine.truth("fast")).isTrue();
    assertThat(machine.word("n")).isEqualTo(4 + 4 + 6 + 0 + 30 + 5);
  }

  /** A chart that asks a ladder for power and counts in blocks, in two tasks of a resource, with an address. */
  private static String application() {
    String shared = "<ExternalVars>" + variables("on power : BOOL; count : INT") + "</ExternalVars>\n";
    String chart = "<Program name=\"Sequence\">" + shared + "<MainBody>" + body("SFC", step("Rest", true, 1, 11, 4)
        + transition(1, 2, written("on")) + step("Work", false, 3, 13, 2) + object("CommonObject", "ActionBlocks", "",
        in(13) + "<ActionBlock><ActionQualifier qualifier=\"D\" duration=\"T#20ms\"/><ReferenceName>power</ReferenceName>"
        + "</ActionBlock>") + transition(3, 4, written("NOT on"))) + "</MainBody></Program>\n";
    String ladder = "<Program name=\"Power\">" + shared + "<Vars accessSpecifier=\"private\">"
        + variables("lamp : BOOL") + "</Vars><MainBody>" + body("LD", "<Rung evaluationOrder=\"1\">"
        + object("LdObject", "LeftPowerRail", "", out(1)) + object("LdObject", "Contact", "operand=\"power\"",
            in(1) + out(2)) + object("LdObject", "Coil", "operand=\"lamp\"", in(2)) + "</Rung>") + "</MainBody></Program>\n";
    String add = object("FbdObject", "DataSource", "identifier=\"count\"", out(1)) + object("FbdObject", "DataSource",
        "identifier=\"step\"", out(2)) + object("FbdObject", "Block", "typeName=\"ADD\"", "<InputVariables>"
        + "<InputVariable parameterName=\"IN1\">" + in(1) + "</InputVariable><InputVariable parameterName=\"IN2\">" + in(2)
        + "</InputVariable></InputVariables><OutputVariables><OutputVariable parameterName=\"OUT\">" + out(3)
        + "</OutputVariable></OutputVariables>") + object("FbdObject", "DataSink", "identifier=\"count\"", in(3));
    String blocks = "<Program name=\"Counter\"><Parameters><InputVars><Variable name=\"step\" orderWithinParamSet=\"1\">"
        + "<Type><TypeName>INT</TypeName></Type></Variable></InputVars></Parameters>" + shared + "<MainBody>"
        + body("FBD", "<Network xsi:type=\"FbdNetwork\" evaluationOrder=\"1\">" + add + "</Network>")
        + "</MainBody></Program>\n";
    String resource = "<GlobalVars>" + variables("power : BOOL; count : INT")
        + "<Variable name=\"on\"><Type><TypeName>BOOL</TypeName></Type><Address location=\"I\" size=\"X\" address=\"0.3\"/>"
        + "</Variable></GlobalVars>\n<Task xsi:type=\"StandardTask\" name=\"fast\" interval=\"T#10ms\" priority=\"1\"/>"
        + "<Task xsi:type=\"StandardTask\" name=\"slow\" interval=\"T#40ms\" priority=\"2\"/>"
        + "<ProgramInstance name=\"second\" typeName=\"Power\" associatedTaskName=\"fast\" evaluationOrder=\"2\"/>"
        + "<ProgramInstance name=\"first\" typeName=\"Sequence\" associatedTaskName=\"fast\" evaluationOrder=\"1\"/>"
        + "<ProgramInstance name=\"counter\" typeName=\"Counter\" associatedTaskName=\"slow\">"
        + "<InputAssignment formalParameter=\"step\" actualValue=\"3\"/></ProgramInstance>\n";
    return project(chart + ladder + blocks, resource);
  }

  @Test
  void anApplicationWithTasks() {
    CheckedProgram program = LogicLanguage.compile(List.of(new Source("a.xml", application())),
        LanguageChoices.DEFAULT).program().orElseThrow();
    assertThat(program.tasks()).extracting(it -> it.name() + " " + it.interval().orElse(0) / MS)
        .containsExactly("fast 10", "slow 40");
    assertThat(program.symbol("%IX0.3")).hasValueSatisfying(it -> assertThat(it.path()).isEqualTo("on"));
    // Work from the second scan on, the lamp 20 ms later, in the same scan as power: the ladder runs behind the chart.
    assertThat(values(TestMachine.of(application()), "on", List.of(0, 1, 1, 1, 1, 0), "second.lamp"))
        .containsExactly(0L, 0L, 0L, 1L, 1L, 0L);
    assertThat(values(TestMachine.of(application()), "on", List.of(0, 0), "count")).as("a machine runs all tasks in "
        + "each scan").containsExactly(3L, 6L);
  }
}
