package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.code.ProgramCompiler;
import java.util.BitSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Statements, calls, parameters and data of the language, run. IEC 61131-3 clauses 6.4 to 6.6 and 7.3, from memory. */
class LanguageTest {

  private static ScanMachine run(String variables, String statements) {
    return TestMachine.scanned(TestMachine.of(variables, statements));
  }

  @ParameterizedTest
  @CsvSource({"1,3,1,6", "3,1,1,0", "3,1,-1,6", "1,10,4,15", "0,255,1,32640", "-3,3,2,0"})
  void forLoops(int from, int to, int by, int sum) {
    ScanMachine machine = run("i, f, t, b, s : INT;", "f := " + from + "; t := " + to + "; b := " + by + ";\n"
        + "FOR i := f TO t BY b DO s := s + i; END_FOR;");
    assertThat(machine.word("s")).isEqualTo(sum);
    ScanMachine constant = run("i, s : INT;", "FOR i := " + from + " TO " + to + " BY " + by
        + " DO s := s + i; END_FOR;");
    assertThat(constant.word("s")).isEqualTo(sum);
  }

  @Test
  void aForLoopToTheGreatestValueOfItsTypeEnds() {
    ScanMachine machine = run("i : USINT; n : INT;", "FOR i := 250 TO 255 DO n := n + 1; END_FOR;");
    assertThat(machine.word("n")).isEqualTo(6);
  }

  /** Common practice, no source: end plus step, so that a search can ask whether it went past the end. */
  @ParameterizedTest
  @CsvSource({"INT,1,8,1,9", "INT,1,8,3,10", "INT,8,1,-1,0", "INT,5,4,1,5", "USINT,250,255,1,255",
      "SINT,-120,-128,-1,-128", "USINT,3,0,-1,0", "LINT,9223372036854775805,9223372036854775807,1,9223372036854775807",
      "LINT,-9223372036854775807,-9223372036854775808,-1,-9223372036854775808", "SINT,100,127,20,120"})
  void theVariableOfAForLoopGoesPastTheEndWhereItsTypeCan(String type, String from, String to, String by, long after) {
    String variables = "i : " + type + "; n : INT; b : INT := " + by + ";";
    for (String step : by.length() < 3 && !type.equals("SINT") && !type.equals("USINT") ? new String[] {by, "b"}
        : new String[] {by}) {
      ScanMachine machine = run(variables, "FOR i := " + from + " TO " + to + " BY " + step
          + " DO n := n + 1; END_FOR;");
      assertThat(machine.word("i")).as(step).isEqualTo(after);
    }
  }

  @Test
  void anArrayOrStructureThatIsNotGivenToAFunctionHasItsFirstValues() {
    ScanMachine machine = TestMachine.of("TYPE Pair : STRUCT a : INT := 7; b : INT; END_STRUCT; END_TYPE\n"
        + "FUNCTION Sum : INT VAR_INPUT list : ARRAY[1..2] OF INT := [3, 4]; p : Pair; n : INT; END_VAR\n"
        + "Sum := list[1] + list[2] + p.a + p.b + n; END_FUNCTION\n"
        + "PROGRAM P VAR l : ARRAY[1..2] OF INT := [100, 200]; q : Pair := (a := 1000, b := 2000); r1, r2, r3 : INT; "
        + "END_VAR\n"
        + "r1 := Sum(n := 1); r2 := Sum(list := l, p := q); r3 := Sum(n := 1); END_PROGRAM");
    TestMachine.scanned(machine);
    assertThat(new long[] {machine.word("r1"), machine.word("r2"), machine.word("r3")}).containsExactly(15, 3300, 15);
  }

  /**
   * It would never end, so it is an error at its line, whether it would have made a pass or not (common practice, no
   * source).
   */
  @ParameterizedTest
  @CsvSource({"1, 8", "8, 1"})
  void aForLoopByZeroIsAnError(int from, int to) {
    ScanMachine machine = TestMachine.of("PROGRAM P VAR i, n, by0 : INT; END_VAR\nn := 1;\n"
        + "FOR i := " + from + " TO " + to + " BY by0 DO n := n + 1; END_FOR;\nEND_PROGRAM");
    assertThat(machine.scan(0)).get()
        .hasToString("test.st:3: the increment is zero, so the loop would never end (scan 1)");
    assertThat(machine.word("n")).isEqualTo(1);
  }

  @Test
  void theEndOfAForLoopIsEvaluatedOnce() {
    ScanMachine machine = run("i, n : INT := 3;", "FOR i := 1 TO n DO n := n + 1; END_FOR;");
    assertThat(machine.word("n")).isEqualTo(6);
  }

  @Test
  void repeatRunsAtLeastOnceAndWhileMayNotRun() {
    ScanMachine machine = run("a, b : INT;",
        "REPEAT a := a + 1; UNTIL TRUE END_REPEAT; WHILE FALSE DO b := b + 1; END_WHILE;");
    assertThat(machine.word("a")).isEqualTo(1);
    assertThat(machine.word("b")).isZero();
  }

  @ParameterizedTest
  @CsvSource({"0,10", "1,20", "2,20", "5,30", "7,30", "8,40", "-4,50"})
  void caseSelects(int selector, int result) {
    ScanMachine machine = run("s, r : INT;", "s := " + selector
        + "; CASE s OF 0: r := 10; 1, 2: r := 20; 5..7: r := 30; -4: r := 50;"
        + " ELSE r := 40; END_CASE;");
    assertThat(machine.word("r")).isEqualTo(result);
  }

  @Test
  void inputsOfABlockKeepTheirValuesFromCallToCall() {
    ScanMachine machine =
        TestMachine.of("FUNCTION_BLOCK B VAR_INPUT x : INT := 4; y : INT; END_VAR VAR_OUTPUT s : INT; END_VAR s := x "
            + "+ y;"
        + " END_FUNCTION_BLOCK PROGRAM P VAR b1 : B := (y := 1); r1, r2, r3 : INT; END_VAR b1(s => r1); b1(x := 10, s "
        + "=> r2);"
        + " b1.y := 5; b1(); r3 := b1.s; END_PROGRAM");
    TestMachine.scanned(machine);
    assertThat(new long[] {machine.word("r1"), machine.word("r2"), machine.word("r3")}).containsExactly(5, 11, 15);
  }

  @Test
  void inOutParametersStandForTheCallersVariable() {
    ScanMachine machine = TestMachine.of("TYPE Pair : STRUCT a, b : INT; END_STRUCT; END_TYPE\n"
        + "FUNCTION_BLOCK Swap VAR_IN_OUT p : Pair; END_VAR VAR h : INT; END_VAR h := p.a; p.a := p.b; p.b := h; "
        + "END_FUNCTION_BLOCK\n"
        + "FUNCTION Bump : INT VAR_IN_OUT n : INT; END_VAR VAR_INPUT by1 : INT; END_VAR n := n + by1; Bump := n * 10; "
        + "END_FUNCTION\n"
        + "FUNCTION_BLOCK Outer VAR_IN_OUT q : Pair; END_VAR VAR s : Swap; END_VAR s(p := q); q.a := q.a + 100; "
        + "END_FUNCTION_BLOCK\n"
        + "PROGRAM P VAR list : ARRAY[1..3] OF Pair := [(a := 1, b := 2), (a := 3, b := 4), (a := 5, b := 6)]; s : "
        + "Swap; o "
        + ": Outer;\n"
        + "i : INT := 2; x : INT := 7; y : INT; END_VAR\n"
        + "s(p := list[i]); o(q := list[3]); y := Bump(n := x, by1 := 3); y := y + Bump(list[1].b, 5); END_PROGRAM");
    TestMachine.scanned(machine);
    assertThat(new long[] {machine.word("list[2].a"), machine.word("list[2].b"), machine.word("list[3].a"),
        machine.word("list[3].b"),
        machine.word("list[1].b"), machine.word("x"), machine.word("y")}).containsExactly(4, 3, 106, 5, 7, 10, 170);
  }

  @Test
  void functionsForgetAndBlocksRemember() {
    ScanMachine machine = TestMachine.of("FUNCTION F : INT VAR n : INT := 5; END_VAR n := n + 1; F := n; END_FUNCTION\n"
        + "FUNCTION_BLOCK B VAR n : INT := 5; END_VAR VAR_TEMP t : INT := 2; END_VAR VAR_OUTPUT o, p : INT; END_VAR\n"
        + "n := n + 1; t := t + 1; o := n; p := t; END_FUNCTION_BLOCK\n"
        + "PROGRAM P VAR b1 : B; f1 : INT; END_VAR f1 := F(); f1 := F(); b1(); b1(); END_PROGRAM");
    TestMachine.scanned(machine);
    assertThat(machine.word("f1")).isEqualTo(6);
    assertThat(machine.word("b1.o")).isEqualTo(7);
    assertThat(machine.word("b1.p")).isEqualTo(3);
  }

  @Test
  void aFunctionMayCallItselfInItsArguments() {
    ScanMachine machine =
        TestMachine.of("FUNCTION Minus : INT VAR_INPUT a, b : INT; END_VAR Minus := a - b; END_FUNCTION\n"
        + "PROGRAM P VAR r : INT; END_VAR r := Minus(Minus(20, 5), Minus(Minus(7, 1), 2)); END_PROGRAM");
    assertThat(TestMachine.scanned(machine).word("r")).isEqualTo(11);
  }

  @Test
  void outputsOfFunctionsAndNegatedOutputs() {
    ScanMachine machine =
        TestMachine.of("FUNCTION Divide : INT VAR_INPUT a, b : INT; END_VAR VAR_OUTPUT rest : INT; exact : BOOL; "
            + "END_VAR\n"
        + "Divide := a / b; rest := a MOD b; exact := rest = 0; END_FUNCTION\n"
        + "PROGRAM P VAR q, r : INT; inexact : BOOL; END_VAR q := Divide(a := 17, b := 5, rest => r, NOT exact => "
        + "inexact); "
        + "END_PROGRAM");
    TestMachine.scanned(machine);
    assertThat(machine.word("q")).isEqualTo(3);
    assertThat(machine.word("r")).isEqualTo(2);
    assertThat(machine.truth("inexact")).isTrue();
  }

  @Test
  void arraysOfSeveralDimensionsAndWholeCopies() {
    ScanMachine machine =
        run("a, b : ARRAY[0..1, 1..3] OF INT := [1, 2, 3, 4, 5, 6]; i : INT := 1; x : INT; names : ARRAY[1..2] OF "
            + "STRING[4];"
        + " others : ARRAY[1..2] OF STRING[4];",
        "a[i, 2] := 50; b := a; b[0, 1] := -1; x := a[0, 1] + b[1, 2] + b[i, i + 2]; names[2] := 'abcdef'; others := "
            + "names;");
    assertThat(machine.word("x")).isEqualTo(1 + 50 + 6);
    assertThat(machine.text("others[2]")).isEqualTo("abcd");
  }

  @Test
  void subrangesAreHeldToTheirRange() {
    ScanMachine machine =
        TestMachine.of("TYPE Level : INT (0..100); END_TYPE PROGRAM P VAR l : Level; i : INT := 101; END_VAR l := "
            + "100;\n"
        + "l := i;\nEND_PROGRAM");
    assertThat(machine.scan(0)).get().hasToString("test.st:2: the value 101 lies outside the subrange 0..100 (scan 1)");
    assertThat(machine.word("l")).isEqualTo(100);
  }

  @Test
  void firstValuesOfEveryKind() {
    ScanMachine machine =
        run("a : INT; s : STRING; r : REAL; d : DATE; e : (red, green := 4, blue); sub : INT (5..9); t : TIME;"
        + " st : STRUCT x : INT := 3; y : BOOL; END_STRUCT := (y := TRUE); n : ARRAY[1..4] OF INT := [2(1), 3];", ";");
    assertThat(machine.word("a") + machine.word("d") + machine.word("e") + machine.word("t")).isZero();
    assertThat(machine.text("s")).isEmpty();
    assertThat(machine.real("r")).isZero();
    assertThat(machine.word("sub")).isEqualTo(5);
    assertThat(machine.word("st.x")).isEqualTo(3);
    assertThat(machine.truth("st.y")).isTrue();
    assertThat(new long[] {machine.word("n[1]"), machine.word("n[2]"), machine.word("n[3]"), machine.word("n[4]")})
        .containsExactly(1, 1, 3, 0);
  }

  @Test
  void globalsLocatedVariablesAndExternals() {
    ScanMachine machine =
        TestMachine.of("VAR_GLOBAL CONSTANT limit : INT := 3; END_VAR VAR_GLOBAL total : INT; raw AT %IW2 : WORD;"
        + " lamp AT %QX0.5 : BOOL; END_VAR\nPROGRAM P VAR_EXTERNAL total : INT; END_VAR VAR w : WORD; END_VAR\n"
        + "total := total + limit; w := %IW2; %QX0.5 := total > 5; END_PROGRAM\n"
        + "PROGRAM Q VAR seen : INT; END_VAR seen := total; END_PROGRAM");
    machine.set("raw", 77);
    TestMachine.scanned(machine);
    assertThat(machine.word("w")).isEqualTo(77);
    assertThat(machine.word("Q.seen")).isEqualTo(3);
    assertThat(machine.truth("lamp")).isFalse();
    TestMachine.scanned(machine);
    assertThat(machine.truth("lamp")).isTrue();
  }

  @Test
  void partsOfBitStringsAreWritten() {
    ScanMachine machine = run("w : WORD := 16#00FF; d : DWORD;",
        "w.%X3 := FALSE; w.15 := TRUE; d.%B2 := 16#AB; d.%W0 := w;");
    assertThat(machine.word("w")).isEqualTo(0x80F7);
    assertThat(machine.word("d")).isEqualTo(0x00AB80F7);
  }

  @Test
  void retainedVariablesOfBlocksSurviveAWarmRestart() {
    ScanMachine machine =
        TestMachine.of("FUNCTION_BLOCK B VAR RETAIN kept : INT; END_VAR VAR lost : INT; END_VAR VAR_OUTPUT k, l : "
            + "INT; END_VAR"
        + " kept := kept + 1; lost := lost + 1; k := kept; l := lost; END_FUNCTION_BLOCK\n"
        + "PROGRAM P VAR b : ARRAY[1..2] OF B; END_VAR VAR RETAIN whole : B; END_VAR b[2](); whole(); END_PROGRAM");
    TestMachine.scanned(TestMachine.scanned(machine)).warmRestart();
    TestMachine.scanned(machine);
    assertThat(machine.word("b[2].k")).isEqualTo(3);
    assertThat(machine.word("b[2].l")).isEqualTo(1);
    assertThat(machine.word("whole.l")).isEqualTo(3);
    machine.coldRestart();
    assertThat(TestMachine.scanned(machine).word("b[2].k")).isEqualTo(1);
  }

  @Test
  void theSameProgramRunsTheSameToTheBit() {
    String text =
        "PROGRAM P VAR x : LREAL := 0.5; y : REAL := 0.3; h : LINT; END_VAR x := SIN(x * 3.7) + EXP(x) / 3.0; y := y "
            + "* 1.1 "
        + "- LREAL_TO_REAL(x);"
        + " IF y > 1.0 OR y < -1.0 THEN y := y / 7.0; END_IF; h := h * 31 + LREAL_TO_LINT(x * 1.0E9); END_PROGRAM";
    ScanMachine one = TestMachine.of(text);
    ScanMachine two = TestMachine.of(text);
    for (int scan = 0; scan < 20_000; scan++) {
      one.scan(scan);
    }
    for (int scan = 0; scan < 20_000; scan++) {
      two.scan(scan);
    }
    assertThat(one.word("h")).isEqualTo(two.word("h")).isNotZero();
    assertThat(one.word("y")).isEqualTo(two.word("y"));
  }

  /** A long run is compiled by the JVM on its way; a run-time error must still name its line then. */
  @Test
  void errorsKeepTheirLineWhenTheCodeIsHot() throws ProgramCompiler.TooLarge {
    ScanMachine machine = new ScanMachine(LogicProgram.compile(TestMachine.check(
        "PROGRAM P VAR_INPUT d : INT := 1; END_VAR VAR n : INT; END_VAR\nn := n + 1;\nn := n / d;\nEND_PROGRAM"),
        LogicOptions.DEFAULT, new BitSet()));
    for (int scan = 0; scan < 50_000; scan++) {
      machine.scan(scan);
    }
    machine.set("d", 0);
    for (int i = 0; i < 20_000; i++) {
      assertThat(machine.scan(50_000).orElseThrow().place()).isEqualTo(new ProgramLine("test.st", 3));
    }
  }
}
