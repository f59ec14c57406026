package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.List;
import org.junit.jupiter.api.Test;

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

  @Test
  void bothFormatsGiveTheSame() {
    String xml = """
        <?xml version="1.0" encoding="UTF-8"?>
        <Project xmlns="www.iec.ch/public/TC65SC65BWG7TF10" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
        <FileHeader companyName="" productName="" productVersion="1"/><ContentHeader name="p"/>
        <Types><GlobalNamespace>
        <DataTypeDecl name="PAIR"><UserDefinedTypeSpec xsi:type="StructTypeSpec"><Member name="a"><Type><TypeName>INT
        </TypeName>
        </Type><InitialValue><SimpleValue value="3"/></InitialValue></Member></UserDefinedTypeSpec></DataTypeDecl>
        <Program name="Main">
        <Vars accessSpecifier="private"><Variable name="go"><Type><TypeName>BOOL</TypeName></Type></Variable>
        <Variable name="q"><Type><TypeName>BOOL</TypeName></Type></Variable>
        <Variable name="n"><Type><TypeName>INT</TypeName></Type><InitialValue><SimpleValue value="1"/></InitialValue>
        </Variable>
        <Variable name="p"><Type><TypeName>PAIR</TypeName></Type></Variable></Vars>
        <MainBody><BodyContent xsi:type="LD">
        <Rung evaluationOrder="1"><LdObject xsi:type="LeftPowerRail"><RelPosition x="0" y="0"/>
        <ConnectionPointOut connectionPointOutId="1"/></LdObject>
        <LdObject xsi:type="Contact" operand="go" negated="true"><RelPosition x="10" y="0"/><ConnectionPointIn>
        <Connection refConnectionPointOutId="1"/></ConnectionPointIn><ConnectionPointOut connectionPointOutId="2"/>
        </LdObject>
        <LdObject xsi:type="Coil" operand="q" latch="set"><RelPosition x="20" y="0"/><ConnectionPointIn>
        <Connection refConnectionPointOutId="2"/></ConnectionPointIn></LdObject></Rung>
        <Rung evaluationOrder="2">
        <FbdObject xsi:type="DataSource" identifier="n"><RelPosition x="0" y="0"/>
        <ConnectionPointOut connectionPointOutId="3"/>
        </FbdObject><FbdObject xsi:type="DataSource" identifier="p.a"><RelPosition x="0" y="9"/>
        <ConnectionPointOut connectionPointOutId="4"/></FbdObject>
        <FbdObject xsi:type="Block" typeName="ADD"><RelPosition x="10" y="0"/><InputVariables>
        <InputVariable parameterName="IN1"><ConnectionPointIn><Connection refConnectionPointOutId="3"/>
        </ConnectionPointIn>
        </InputVariable><InputVariable parameterName="IN2"><ConnectionPointIn><Connection refConnectionPointOutId="4"/>
        </ConnectionPointIn></InputVariable></InputVariables><OutputVariables><OutputVariable parameterName="">
        <ConnectionPointOut connectionPointOutId="5"/></OutputVariable></OutputVariables></FbdObject>
        <FbdObject xsi:type="DataSink" identifier="n"><RelPosition x="20" y="0"/><ConnectionPointIn>
        <Connection refConnectionPointOutId="5"/></ConnectionPointIn></FbdObject></Rung>
        </BodyContent></MainBody></Program></GlobalNamespace></Types>
        <Instances><Configuration name="C"><Resource name="R" resourceTypeName=""/></Configuration></Instances>
        </Project>
        """;
    ScanMachine machine = scanned(xml);
    assertThat(machine.truth("q")).isTrue();
    assertThat(machine.word("n")).isEqualTo(4);
  }
}
