package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Networks far larger than anybody draws, in which one place takes from thousands. */
class LargeNetworksTest {

  private static final int INPUTS = 3_000;

  private static String each(String text) {
    return IntStream.range(0, INPUTS).mapToObj(i -> text.replace("#id", "" + (i + 2)).replace("#", "" + i))
        .collect(Collectors.joining("\n"));
  }

  private static ScanMachine machine(String language, String elements) {
    return TestMachine.of(SketchXml.project(SketchXml.program("Main", language, IntStream.range(0, INPUTS)
        .mapToObj(i -> "x" + i).collect(Collectors.joining(" ")) + " q : BOOL", elements)));
  }

  /** What q is with these inputs TRUE. */
  private static boolean given(ScanMachine machine, List<Integer> inputs) {
    for (int i = 0; i < INPUTS; i++) {
      machine.setWordAt(machine.address("x" + i), inputs.contains(i) ? 1 : 0);
    }
    assertThat(machine.scan(0)).isEmpty();
    return machine.wordAt(machine.address("q")) != 0;
  }

  @Test
  void manyWiresLeadIntoOneCoil() {
    ScanMachine machine = machine("LD", "<leftPowerRail localId=\"1\"/>" + each("<contact localId=\"#id\">"
        + "<connectionPointIn><connection refLocalId=\"1\"/></connectionPointIn><variable>x#</variable></contact>")
        + "<coil localId=\"9999\"><connectionPointIn>" + each("<connection refLocalId=\"#id\"/>")
        + "</connectionPointIn><variable>q</variable></coil>");
    assertThat(given(machine, List.of())).isFalse();
    for (int only : List.of(0, 1, 58, 59, 60, 61, 1777, INPUTS - 1)) {
      assertThat(given(machine, List.of(only))).as("x" + only).isTrue();
    }
  }

  @Test
  void aBlockHasManyInputs() {
    ScanMachine machine = machine("FBD", each("<inVariable localId=\"#id\"><expression>x#</expression></inVariable>")
        + "<block localId=\"9998\" typeName=\"XOR\"><inputVariables>" + each("<variable formalParameter=\"IN#id\">"
        + "<connectionPointIn><connection refLocalId=\"#id\"/></connectionPointIn></variable>") + "</inputVariables>"
        + "<outputVariables><variable formalParameter=\"OUT\"/></outputVariables></block><outVariable localId=\"9999\">"
        + "<connectionPointIn><connection refLocalId=\"9998\" formalParameter=\"OUT\"/></connectionPointIn>"
        + "<expression>q</expression></outVariable>");
    SplittableRandom random = new SplittableRandom(1);
    for (int many = 0; many < 20; many++) {
      List<Integer> inputs = random.ints(1_000, 0, INPUTS).distinct().limit(many).boxed().toList();
      assertThat(given(machine, inputs)).as(inputs.toString()).isEqualTo(many % 2 == 1);
    }
  }
}
