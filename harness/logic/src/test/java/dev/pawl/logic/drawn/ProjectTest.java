package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import dev.pawl.logic.code.ProgramCompiler;
import java.util.BitSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Whole projects: types, globals, tasks, functions and function blocks beside one another, in both exchange formats.
 */
class ProjectTest {

  private static final String TYPES = """
      <dataType name="MODE"><baseType><enum><values><value name="OFF"/><value name="SLOW"/><value name="FAST"/></values>
      </enum></baseType></dataType>
      <dataType name="DRIVE"><baseType><struct><variable name="run"><type><BOOL/></type></variable>
      <variable name="speed"><type><INT/></type><initialValue><simpleValue value="7"/></initialValue></variable>
      </struct>
      </baseType></dataType>
      <dataType name="ROW"><baseType><array><dimension lower="1" upper="3"/><baseType><INT/></baseType></array>
      </baseType>
      <initialValue><arrayValue><value repetitionValue="2"><simpleValue value="4"/></value><value>
      <simpleValue value="5"/>
      </value></arrayValue></initialValue></dataType>
      <dataType name="LEVEL"><baseType><subrangeSigned><range lower="0" upper="9"/><baseType><INT/></baseType>
      </subrangeSigned></baseType></dataType>
      """;

  private static String project(String types, String pous, String instances) {
    return SketchXml.project(pous).replace("<dataTypes/>", "<dataTypes>" + types + "</dataTypes>")
        .replace("<configurations/>", "<configurations>" + instances + "</configurations>");
  }

  private static ScanMachine scanned(String xml) {
    return TestMachine.scanned(TestMachine.of(xml));
  }

  /** The projects of these tests in the older format. */
  static List<String> older() {
    return List.of(types(), units(), tasks(), actions());
  }

  private static String types() {
    return project(TYPES, SketchXml.unit("program", "Main", "",
        "m : MODE := FAST; d : DRIVE; r : ROW; "
        + "l : LEVEL; n : INT; q : BOOL",
            "<ST><xhtml:p><![CDATA[\nq := m = MODE#FAST AND d.speed = 7;\nn := r[1] + r[3];\nl := 9;\n]]>"
        + "</xhtml:p></ST>"), "");
  }

  @Test
  void typesWithTheirFirstValues() {
    ScanMachine machine = scanned(types());
    assertThat(machine.truth("q")).isTrue();
    assertThat(machine.word("n")).isEqualTo(9);
    assertThat(machine.word("l")).isEqualTo(9);
  }

  private static String units() {
    String twice = SketchXml.unit("function", "Twice", "<returnType><INT/></returnType><inputVars>"
        + SketchXml.variables("x : INT") + "</inputVars>", "", "<ST><xhtml:p>Twice := 2 * x;</xhtml:p></ST>");
    String count = SketchXml.unit("functionBlock", "Count", "<inputVars>" + SketchXml.variables("go : BOOL")
        + "</inputVars><outputVars>" + SketchXml.variables("n : INT") + "</outputVars>", "", "<LD>"
        + SketchXml.elements(Sketch.of(List.of("1 contact ^go < rail", "2 block ADD EN<1 IN1<=n IN2<=1",
        "3 out n < 2.OUT"))) + "</LD>");
    String main = SketchXml.program("Main", "FBD", "go : BOOL; a b : INT; c d : Count", SketchXml.elements(
        Sketch.of(List.of("1 block Count c go<=go", "2 block Twice x<1.n", "3 out a < 2.Twice",
        "4 block Count d go!<=go", "5 out b < 4.n"))));
    return project("", twice + count + main, "");
  }

  @Test
  void aFunctionAndABlockOfOnesOwn() {
    ScanMachine machine = TestMachine.of(units());
    for (long go : new long[] {0, 1, 0, 1, 1}) {
      machine.set("go", go);
      assertThat(machine.scan(0)).isEmpty();
    }
    assertThat(machine.word("a")).as("two rising edges, twice").isEqualTo(4);
    assertThat(machine.word("b")).as("each instance senses its own edges").isEqualTo(2);
  }

  private static String tasks() {
    String one = SketchXml.unit("program", "Counter", "<externalVars>" + SketchXml.variables("total : INT")
        + "</externalVars>", "n : INT", "<ST><xhtml:p>n := n + 1; total := total + 10;</xhtml:p></ST>");
    return project("", one, "<configuration name=\"C\"><resource name=\"R\">"
        + "<task name=\"fast\" interval=\"T#10ms\" priority=\"1\"><pouInstance name=\"first\" typeName=\"Counter\"/>"
        + "<pouInstance name=\"second\" typeName=\"Counter\"/></task></resource><globalVars>"
        + SketchXml.variables("total : INT := 5") + "</globalVars></configuration>");
  }

  @Test
  void globalsTasksAndInstances() {
    ScanMachine machine = scanned(tasks());
    assertThat(machine.word("total")).isEqualTo(25);
    assertThat(machine.word("first.n")).isEqualTo(1);
    assertThat(machine.word("second.n")).isEqualTo(1);
  }

  private static String actions() {
    return SketchXml.project( SketchXml.unit("program", "Main", "", "n : INT", "<ST><xhtml:p>Step(); Step();</xhtml:p></ST>")
        .replace("</interface>",
            "</interface><actions><action name=\"Step\"><body><ST><xhtml:p>n := n + 1;</xhtml:p></ST>"
        + "</body></action></actions>"));
  }

  @Test
  void actionsOfADrawnUnitAreCalledByName() {
    assertThat(scanned(actions()).word("n")).isEqualTo(2);
  }

  /** A whole application in additional data of its own form: a resource, a task, types, globals by their list. */
  @Test
  void declarationsInAdditionalDataAreReadWhereThatIsAllowed() throws ProgramCompiler.TooLarge {
    String globals = "<data name=\"site/globals\" handleUnknown=\"implementation\"><globalVars name=\"Settings\">"
        + SketchXml.variables("most : INT := 4") + "</globalVars></data>";
    String unit = "<data name=\"site/unit\" handleUnknown=\"implementation\">" + SketchXml.unit("program", "Main", "",
        "n : INT; m : MODE", "<ST><xhtml:p>n := Settings.most; m := MODE#FAST;</xhtml:p></ST>") + "</data>";
    String type = "<data name=\"site/type\" handleUnknown=\"implementation\"><dataType name=\"MODE\"><baseType><enum>"
        + "<values><value name=\"SLOW\"/><value name=\"FAST\"/></values></enum></baseType></dataType></data>";
    String xml = SketchXml.project("").replace("</project>", "<addData><data name=\"site/application\""
        + " handleUnknown=\"implementation\"><resource name=\"R\"><task name=\"t\" interval=\"PT0.25S\" priority=\"1\">"
        + "<pouInstance name=\"Main\" typeName=\"\"/></task><addData>" + type + globals + unit
        + "</addData></resource></data></addData></project>");
    CheckedProgram program = LogicLanguage.compile(List.of(new Source("a.xml", xml)), LanguageChoices.DEFAULT.with(
        Set.of(Allowance.ADDITIONAL_DATA))).program().orElseThrow();
    assertThat(program.tasks().get(0).interval()).hasValue(250_000_000);
    ScanMachine machine = TestMachine.scanned(new ScanMachine(LogicProgram.compile(program, LogicOptions.DEFAULT,
        new BitSet())));
    assertThat(machine.word("Main.n")).isEqualTo(4);
    assertThat(machine.word("Main.m")).isEqualTo(1);
  }

  /** a AND NOT b, by hand; operands stand at the pins, as the schema allows, and no wire leads to them. */
  @Test
  void operandsAtPinsAreReadAndWritten() {
    String pins = "<FBD><block localId=\"1\" typeName=\"AND\"><position x=\"9\" y=\"9\"/><inputVariables>"
        + "<variable formalParameter=\"IN1\"><connectionPointIn><expression>a</expression></connectionPointIn></variable>"
        + "<variable formalParameter=\"IN2\" negated=\"true\"><connectionPointIn><expression>b</expression>"
        + "</connectionPointIn></variable></inputVariables><inOutVariables/><outputVariables><variable"
        + " formalParameter=\"OUT\"><connectionPointOut><expression>q</expression></connectionPointOut></variable>"
        + "</outputVariables></block></FBD>";
    ScanMachine machine = TestMachine.of(SketchXml.project(SketchXml.unit("program", "Main", "",
        "a : BOOL; b : BOOL; q : BOOL", pins)));
    for (int i = 0; i < 4; i++) {
      machine.set("a", i % 2 == 1);
      machine.set("b", i / 2 == 1);
      TestMachine.scanned(machine);
      assertThat(machine.truth("q")).as(String.valueOf(i)).isEqualTo(i == 1);
    }
  }

  /** A loop through a function takes its type from a global variable in it, which the unit does not declare. */
  @Test
  void aLoopTakesItsTypeFromAGlobalVariable() {
    String loop = "<FBD><block localId=\"1\" typeName=\"ADD\"><position x=\"9\" y=\"9\"/><inputVariables>"
        + "<variable formalParameter=\"IN1\"><connectionPointIn><connection refLocalId=\"1\" formalParameter=\"OUT\"/>"
        + "</connectionPointIn></variable><variable formalParameter=\"IN2\"><connectionPointIn><connection"
        + " refLocalId=\"2\"/></connectionPointIn></variable></inputVariables><inOutVariables/><outputVariables>"
        + "<variable formalParameter=\"OUT\"><connectionPointOut/></variable></outputVariables></block>"
        + "<inVariable localId=\"2\"><position x=\"1\" y=\"9\"/><connectionPointOut/><expression>step</expression>"
        + "</inVariable><outVariable localId=\"3\"><position x=\"20\" y=\"9\"/><connectionPointIn><connection"
        + " refLocalId=\"1\" formalParameter=\"OUT\"/></connectionPointIn><expression>total</expression></outVariable>"
        + "</FBD>";
    ScanMachine machine = TestMachine.of(project("", SketchXml.unit("program", "Main", "", "", loop),
        "<configuration name=\"C\"><resource name=\"R\"/><globalVars>" + SketchXml.variables("total : INT; step : INT := 3")
        + "</globalVars></configuration>"));
    for (int scan = 1; scan <= 3; scan++) {
      assertThat(machine.scan(scan)).isEmpty();
      assertThat(machine.word("total")).isEqualTo(3 * scan);
    }
  }

  /**
   * A wire that leads over a label carries what came out when its block was last evaluated. By hand: b is x + 1 of the
   * last scan in which no jump passed the block over, and 0 before there was one; t does the same by an instance.
   */
  @Test
  void aWireOverALabelKeepsWhatItCarriedWhenAJumpPassesItsBlockOver() {
    String body = "<FBD><inVariable localId=\"1\"><position x=\"0\" y=\"0\"/><connectionPointOut/><expression>skip"
        + "</expression></inVariable><jump localId=\"2\" label=\"L\" executionOrderId=\"1\"><position x=\"9\" y=\"0\"/>"
        + in(1, "") + "</jump><inVariable localId=\"3\"><position x=\"0\" y=\"9\"/><connectionPointOut/><expression>x"
        + "</expression></inVariable><inVariable localId=\"4\"><position x=\"0\" y=\"19\"/><connectionPointOut/>"
        + "<expression>1</expression></inVariable><block localId=\"5\" typeName=\"+\" executionOrderId=\"2\">"
        + "<position x=\"9\" y=\"9\"/><inputVariables><variable formalParameter=\"IN1\">" + in(3, "") + "</variable>"
        + "<variable formalParameter=\"IN2\">" + in(4, "") + "</variable></inputVariables><inOutVariables/>"
        + "<outputVariables><variable formalParameter=\"OUT\"><connectionPointOut/></variable></outputVariables></block>"
        + "<block localId=\"6\" typeName=\"CTU\" instanceName=\"c\" executionOrderId=\"3\"><position x=\"9\" y=\"39\"/>"
        + "<inputVariables><variable formalParameter=\"CU\" negated=\"true\">" + in(1, "") + "</variable>"
        + "</inputVariables><inOutVariables/><outputVariables><variable formalParameter=\"CV\"><connectionPointOut/>"
        + "</variable></outputVariables></block><label localId=\"7\" label=\"L\" executionOrderId=\"4\"><position x=\"0\""
        + " y=\"90\"/></label>" + out(8, "b", 5, "OUT", 5) + out(9, "n", 6, "CV", 6) + "</FBD>";
    ScanMachine machine = TestMachine.of(SketchXml.project(SketchXml.unit("program", "Main", "",
        "skip : BOOL; x : INT; b : INT; n : INT; c : CTU", body)));
    int[][] scans = {{1, 4, 0, 0}, {0, 4, 5, 1}, {1, 8, 5, 1}, {0, 8, 9, 1}};
    for (int[] scan : scans) {
      machine.set("skip", scan[0]);
      machine.set("x", scan[1]);
      assertThat(machine.scan(0)).isEmpty();
      assertThat(machine.word("b")).as("b with x = " + scan[1]).isEqualTo(scan[2]);
      assertThat(machine.word("n")).as("n with x = " + scan[1]).isEqualTo(scan[3]);
    }
  }

  /**
   * Where no places are stated, the file's order counts, for labels too. By hand: with skip the first network jumps over
   * the second, whose coil keeps what it was, and the third runs.
   */
  @Test
  void aLabelWithoutAPlaceBelongsToTheNetworkBehindItInTheFile() {
    String place = "<position x=\"0\" y=\"0\"/>";
    String body = "<LD><leftPowerRail localId=\"0\">" + place + "<connectionPointOut/></leftPowerRail>"
        + contact(1, "skip") + "<jump localId=\"2\" label=\"over\">" + place + in(1, "") + "</jump>" + contact(3, "a")
        + coil(4, "q", 3) + "<label localId=\"5\" label=\"over\">" + place + "</label>" + contact(6, "a")
        + coil(7, "r", 6) + "</LD>";
    ScanMachine machine = TestMachine.of(SketchXml.project(SketchXml.unit("program", "Main", "",
        "skip : BOOL; a : BOOL; q : BOOL; r : BOOL", body)));
    int[][] scans = {{0, 1, 1, 1}, {1, 0, 1, 0}, {0, 0, 0, 0}};
    for (int[] scan : scans) {
      machine.set("skip", scan[0]);
      machine.set("a", scan[1]);
      assertThat(machine.scan(0)).isEmpty();
      assertThat(machine.word("q")).isEqualTo(scan[2]);
      assertThat(machine.word("r")).isEqualTo(scan[3]);
    }
  }

  private static String contact(int id, String variable) {
    return "<contact localId=\"" + id + "\"><position x=\"0\" y=\"0\"/>" + in(0, "") + "<connectionPointOut/><variable>"
        + variable + "</variable></contact>";
  }

  private static String coil(int id, String variable, int from) {
    return "<coil localId=\"" + id + "\"><position x=\"0\" y=\"0\"/>" + in(from, "") + "<connectionPointOut/><variable>"
        + variable + "</variable></coil>";
  }

  private static String in(int from, String output) {
    return "<connectionPointIn><connection refLocalId=\"" + from + "\"" + (output.isEmpty() ? "" : " formalParameter=\""
        + output + "\"") + "/></connectionPointIn>";
  }

  private static String out(int id, String variable, int from, String output, int order) {
    return "<outVariable localId=\"" + id + "\" executionOrderId=\"" + order + "\"><position x=\"90\" y=\"" + 10 * id
        + "\"/>" + in(from, output) + "<expression>" + variable + "</expression></outVariable>";
  }

  /** Each symbol in a block is the function that the standard's tables have it for (from memory): 7 and 2, by hand. */
  @ParameterizedTest
  @CsvSource({"+, 9", "-, 5", "*, 14", "/, 3", ">, 1", ">=, 1", "=, 0", "<=, 0", "<, 0", "<>, 1", "&, 2", ">=1, 7",
      "=2k+1, 5"})
  void symbolsInBlocksAreFunctions(String symbol, long result) {
    String type = Set.of("&", ">=1", "=2k+1").contains(symbol) ? "WORD" : "INT";
    String results = Set.of(">", ">=", "=", "<=", "<", "<>").contains(symbol) ? "BOOL" : type;
    String body = "<FBD><inVariable localId=\"1\"><position x=\"0\" y=\"0\"/><connectionPointOut/><expression>a"
        + "</expression></inVariable><inVariable localId=\"2\"><position x=\"0\" y=\"9\"/><connectionPointOut/>"
        + "<expression>b</expression></inVariable><block localId=\"3\" typeName=\"" + SketchXml.escaped(symbol)
        + "\"><position x=\"9\" y=\"0\"/><inputVariables><variable formalParameter=\"IN1\">" + in(1, "") + "</variable>"
        + "<variable formalParameter=\"IN2\">" + in(2, "") + "</variable></inputVariables><inOutVariables/>"
        + "<outputVariables><variable formalParameter=\"OUT\"><connectionPointOut/></variable></outputVariables></block>"
        + out(4, "q", 3, "OUT", 1).replace(" executionOrderId=\"1\"", "") + "</FBD>";
    ScanMachine machine = TestMachine.scanned(TestMachine.of(SketchXml.project(SketchXml.unit("program", "Main", "",
        "a : " + type + " := 7; b : " + type + " := 2; q : " + results, body))));
    assertThat(results.equals("BOOL") ? machine.truth("q") ? 1 : 0 : machine.word("q")).isEqualTo(result);
  }

  /** A unit that is a file by itself, with its declaration as text: its program runs as any other. */
  @Test
  void aUnitByItselfRunsWhereThatIsAllowed() throws ProgramCompiler.TooLarge {
    String xml = "<pou xmlns=\"http://www.plcopen.org/xml/tc6_0201\" name=\"Main\" pouType=\"program\"><interface>"
        + "<addData><data name=\"site\" handleUnknown=\"implementation\"><text>PROGRAM Main\nVAR\n  a : INT := 4; // four\n"
        + "  b : INT;\nEND_VAR</text></data></addData></interface><body><FBD><inVariable localId=\"1\"><position x=\"0\""
        + " y=\"0\"/><connectionPointOut/><expression>a</expression></inVariable><inVariable localId=\"2\"><position x=\"0\""
        + " y=\"9\"/><connectionPointOut/><expression/></inVariable><outVariable localId=\"3\"><position x=\"9\" y=\"0\"/>"
        + in(1, "") + "<expression>b</expression></outVariable></FBD></body></pou>";
    CheckedProgram program = LogicLanguage.compile(List.of(new Source("a.xml", xml)), LanguageChoices.DEFAULT.with(
        Set.of(Allowance.LONE_UNITS, Allowance.ADDITIONAL_DATA, Allowance.EMPTY_BOXES))).program().orElseThrow();
    ScanMachine machine = TestMachine.scanned(new ScanMachine(LogicProgram.compile(program, LogicOptions.DEFAULT,
        new BitSet())));
    assertThat(machine.word("b")).isEqualTo(4);
  }

  /**
   * Lines of text that end by elements, and not in the file: a remark ends with its line, and what looks like one within
   * a text or another remark is none. By hand: all six are TRUE.
   */
  @Test
  void aRemarkEndsWhereAnElementEndsItsLine() {
    String lines = "<ST><xhtml:p>a := TRUE; // a &lt;= TRUE<br/>b := TRUE; (* // <br/> *) c := TRUE;<br/>s := '//';"
        + "<br/>d := s = '//'; // (* <br/></xhtml:p><xhtml:p>e := TRUE; // last</xhtml:p><xhtml:p>f := TRUE;</xhtml:p></ST>";
    ScanMachine machine = scanned(SketchXml.project(SketchXml.unit("program", "Main", "",
        "a : BOOL; b : BOOL; c : BOOL; d : BOOL; e : BOOL; f : BOOL; s : STRING", lines)));
    for (String variable : List.of("a", "b", "c", "d", "e", "f")) {
      assertThat(machine.truth(variable)).as(variable).isTrue();
    }
  }

  /** The first of the formats writes how often an element of a first value stands as {@code repetition}. */
  @Test
  void elementsAreRepeatedInTheFirstFormatToo() {
    String xml = types().replace("repetitionValue", "repetition").replace("xml/tc6_0201", "xml/tc6.xsd");
    assertThat(scanned(xml).word("n")).as("4 and 5").isEqualTo(9);
  }

  @Test
  void theNewerFormatGivesTheSame() {
    ScanMachine machine = scanned(NewerXml.of(tasks()));
    assertThat(machine.word("total")).isEqualTo(25);
    assertThat(scanned(NewerXml.of(actions())).word("n")).isEqualTo(2);
    ScanMachine counted = TestMachine.of(NewerXml.of(units()));
    for (long go : new long[] {0, 1, 0, 1, 1}) {
      counted.set("go", go);
      assertThat(counted.scan(0)).isEmpty();
    }
    assertThat(counted.word("a")).as("two rising edges, twice").isEqualTo(4);
    assertThat(counted.word("b")).as("each instance senses its own edges").isEqualTo(2);
  }
}
