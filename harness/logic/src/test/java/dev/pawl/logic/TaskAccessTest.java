package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.model.CheckedProgram;
import org.junit.jupiter.api.Test;

/** Which task reads and writes what, through all that a program can hand a variable on by. Worked out by hand. */
class TaskAccessTest {

  private static final CheckedProgram PROGRAM = TestMachine.check("""
      TYPE Pair : STRUCT left, right : BOOL; END_STRUCT; END_TYPE
      FUNCTION Both : BOOL
        VAR_EXTERNAL inFunction : BOOL; END_VAR
        VAR_INPUT x : BOOL; END_VAR
        Both := x AND inFunction;
      END_FUNCTION
      FUNCTION_BLOCK Inner
        VAR_INPUT x : BOOL; END_VAR
        VAR_OUTPUT q : BOOL; END_VAR
        VAR_EXTERNAL inBlock : BOOL; END_VAR
        q := x OR inBlock;
      END_FUNCTION_BLOCK
      FUNCTION_BLOCK Outer
        VAR_IN_OUT passed : BOOL; END_VAR
        VAR inner : ARRAY[1..2] OF Inner; i : INT; END_VAR
        inner[i](x := passed);
      END_FUNCTION_BLOCK
      PROGRAM Fast
        VAR_EXTERNAL single, ofFast, byBoth, a, whole : BOOL; field, other : Pair; list : ARRAY[1..3] OF BOOL; END_VAR
        VAR one, two : Outer; t : TON; i : INT; END_VAR
        one(passed := byBoth);
        t(IN := a, PT := T#1s);
        ofFast := t.Q AND Both(x := field.left);
        list[i] := TRUE;
        other := field;
      END_PROGRAM
      PROGRAM Slow
        VAR_EXTERNAL byBoth, ofSlow : BOOL; field : Pair; list : ARRAY[1..3] OF BOOL; END_VAR
        IF list[2] THEN byBoth := FALSE; END_IF;
        FOR n := 1 TO 3 DO ofSlow := field.right; END_FOR;
      END_PROGRAM
      CONFIGURATION C
        VAR_GLOBAL single, ofFast, ofSlow, byBoth, a, whole, inBlock, inFunction, unused : BOOL;
          field, other : Pair; list : ARRAY[1..3] OF BOOL; n : INT; END_VAR
        TASK Quick(INTERVAL := T#10ms, PRIORITY := 0);
        TASK Idle(SINGLE := single, PRIORITY := 1);
        PROGRAM fast WITH Quick : Fast;
        PROGRAM slow WITH Idle : Slow;
      END_CONFIGURATION
      """);

  private static final TaskAccess ACCESS = new TaskAccess(PROGRAM);

  private static String readers(String path) {
    return names(ACCESS.readers(PROGRAM.symbol(path).orElseThrow().address()));
  }

  private static String writers(String path) {
    return names(ACCESS.writers(PROGRAM.symbol(path).orElseThrow().address()));
  }

  private static String names(int[] tasks) {
    StringBuilder names = new StringBuilder();
    for (int task : tasks) {
      names.append(names.isEmpty() ? "" : " ").append(PROGRAM.tasks().get(task).name());
    }
    return names.toString();
  }

  @Test
  void aVariableIsReadByTheTaskWhoseProgramsReadIt() {
    assertThat(readers("a")).isEqualTo("Quick");
    assertThat(readers("unused")).isEmpty();
    assertThat(readers("single")).isEqualTo("Idle");
    assertThat(readers("ofFast")).isEmpty();
  }

  @Test
  void functionsAndBlocksReadForTheTaskThatRunsThem() {
    assertThat(readers("inFunction")).isEqualTo("Quick");
    assertThat(readers("inBlock")).isEqualTo("Quick");
    assertThat(readers("fast.one.inner[2].x")).isEqualTo("Quick");
    assertThat(readers("fast.two.inner[2].x")).isEmpty();
  }

  @Test
  void whatIsPassedByReferenceIsReadAndWritten() {
    assertThat(readers("byBoth")).isEqualTo("Quick");
    assertThat(writers("byBoth")).isEqualTo("Quick Idle");
  }

  @Test
  void partsAreToldApartAsFarAsTheIndexIsKnown() {
    assertThat(readers("field.left")).isEqualTo("Quick");
    assertThat(readers("field.right")).isEqualTo("Quick Idle");
    assertThat(writers("other.right")).isEqualTo("Quick");
    assertThat(writers("list[3]")).isEqualTo("Quick");
    assertThat(readers("list[2]")).isEqualTo("Idle");
    assertThat(readers("list[3]")).isEmpty();
  }

  @Test
  void anOutputIsWrittenByItsOwnTask() {
    assertThat(writers("ofFast")).isEqualTo("Quick");
    assertThat(writers("ofSlow")).isEqualTo("Idle");
    assertThat(writers("a")).isEmpty();
  }
}
