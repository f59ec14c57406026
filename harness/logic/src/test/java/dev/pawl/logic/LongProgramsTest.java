package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.logic.code.ProgramCompiler;
import java.util.BitSet;
import org.junit.jupiter.api.Test;

/**
 * Programs whose code is moved into several methods: EXIT, CONTINUE and RETURN lead where they should, and results do
 * not change.
 */
class LongProgramsTest {

  private static final String HEAD = "PROGRAM P\nVAR i, j, n : DINT; a : BOOL; done : BOOL; END_VAR\n";

  /** Statements that add up to {@code count}, long enough not to fit one method. */
  private static String padding(int count) {
    return "n := n + i - i + 1;\n".repeat(count);
  }

  private static ScanMachine run(String statements) {
    ScanMachine machine = TestMachine.of(HEAD + statements + "done := TRUE;\nEND_PROGRAM\n");
    assertThat(machine.scan(0)).isEmpty();
    return machine;
  }

  @Test
  void thousandsOfStatements() {
    assertThat(run(padding(5000)).word("n")).isEqualTo(5000);
  }

  @Test
  void exitFromALoopWithALongBody() {
    ScanMachine machine = run("FOR i := 1 TO 10 DO\n" + padding(1000) + "IF i = 3 THEN EXIT; END_IF;\n" + padding(1000)
        + "END_FOR;\n");
    assertThat(machine.word("n")).isEqualTo(2 * 2000 + 1000);
    assertThat(machine.word("i")).isEqualTo(3);
    assertThat(machine.truth("done")).isTrue();
  }

  @Test
  void continueInALoopWithALongBody() {
    ScanMachine machine = run("FOR i := 1 TO 10 DO\n" + padding(1000) + "IF i > 3 THEN CONTINUE; END_IF;\n"
        + padding(1000) + "END_FOR;\n");
    assertThat(machine.word("n")).isEqualTo(10 * 1000 + 3 * 1000);
    assertThat(machine.truth("done")).isTrue();
  }

  @Test
  void exitLeavesTheInnermostLoopOnly() {
    ScanMachine machine = run("FOR i := 1 TO 3 DO\nj := 0;\nREPEAT\nj := j + 1;\n" + padding(700)
        + "IF j = 2 THEN EXIT; END_IF;\n"
        + padding(700) + "UNTIL FALSE END_REPEAT;\n" + padding(700) + "END_FOR;\n");
    assertThat(machine.word("n")).isEqualTo(3 * (3 * 700 + 700));
  }

  @Test
  void returnFromDeepInside() {
    ScanMachine machine = run("WHILE TRUE DO\nIF NOT a THEN\n" + padding(1500)
        + "CASE n OF\n1500: RETURN;\nELSE n := -1;\nEND_CASE;\n"
        + padding(1500) + "END_IF;\nEND_WHILE;\n");
    assertThat(machine.word("n")).isEqualTo(1500);
    assertThat(machine.truth("done")).isFalse();
  }

  @Test
  void functionBlocksAndFunctionsAreSplitToo() {
    ScanMachine machine = TestMachine.of("FUNCTION_BLOCK B\nVAR_OUTPUT n : DINT; END_VAR\nVAR i : DINT; END_VAR\n"
        + padding(2000) + "IF n > 4000 THEN RETURN; END_IF;\n" + padding(2000)
        + "END_FUNCTION_BLOCK\nFUNCTION F : DINT\nVAR_INPUT i : DINT; END_VAR\n" + "VAR n : DINT; END_VAR\n"
        + padding(2000) + "F := n;\nEND_FUNCTION\nPROGRAM P\nVAR one, two : B; f1 : DINT; END_VAR\n"
        + "one(); two(); one();\nf1 := F(5) + F(6);\nEND_PROGRAM\n");
    assertThat(machine.scan(0)).isEmpty();
    assertThat(machine.word("one.n")).isEqualTo(6000);
    assertThat(machine.word("two.n")).isEqualTo(4000);
    assertThat(machine.word("f1")).isEqualTo(4000);
  }

  @Test
  void errorsKeepTheirLineInMovedCode() {
    ScanMachine machine = TestMachine.of(HEAD + padding(3000) + "n := 1 / j;\n" + padding(3000) + "END_PROGRAM\n");
    assertThat(machine.scan(0)).get().hasToString("test.st:3003: division by zero (scan 1)");
  }

  @Test
  void aSingleStatementThatNoMethodHolds() {
    StringBuilder text = new StringBuilder("IF i = -1 THEN n := 0;\n");
    for (int i = 0; i < 10_000; i++) {
      text.append("ELSIF i = ").append(i).append(" THEN n := ").append(i).append(";\n");
    }
    CheckedProgram program = TestMachine.check(HEAD + text + "END_IF;\nEND_PROGRAM\n");
    assertThat(assertThrows(ProgramCompiler.TooLarge.class,
        () -> LogicProgram.compile(program, LogicOptions.DEFAULT, new BitSet())))
        .hasMessage("test.st:1:9: a single statement of P is too large; split it");
  }
}
