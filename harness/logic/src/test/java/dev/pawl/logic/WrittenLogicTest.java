package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.code.ProgramCompiler;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Structured Text as programs have it. What is of the standard (IEC 61131-3:2013) is from memory; what is not
 * (AND_THEN, Type.member, a list before its globals, ACTION outside of charts) is common practice, no source.
 */
class WrittenLogicTest {

  private static ScanMachine run(String variables, String statements) {
    return TestMachine.scanned(TestMachine.of(variables, statements));
  }

  /** The square root of 2 as REAL and as LREAL, by Java's own. */
  @Test
  void realLiteralsTakeTheTypeThatTheyAreUsedWith() {
    ScanMachine machine = run("r, p, m, s : REAL; l : LREAL;", "r := SQRT(2.0); l := SQRT(2.0); p := 2.0 ** 0.5;"
        + " m := MAX(SQRT(2.0), 1.0) + SIN(0.0); s := SEL(TRUE, 1.0, SQRT(2.0));");
    assertThat(machine.real("l")).isEqualTo(Math.sqrt(2));
    for (String real : List.of("r", "p", "m", "s")) {
      assertThat(machine.real(real)).as(real).isEqualTo((float) Math.sqrt(2));
    }
  }

  /** The right operand would be an error: an index beyond the array, a division by zero. */
  @Test
  void theRightOperandOfAndThenIsLeftOutWhereItDecidesNothing() {
    ScanMachine machine = run("i : INT := 7; z : INT; a : ARRAY[1..3] OF BOOL; one, two : BOOL := TRUE; n : INT;",
        "one := i <= 3 AND_THEN a[i]; two := z = 0 OR_ELSE 10 / z > 1;"
            + " IF i > 3 OR_ELSE a[i] AND_THEN 1 / z > 0 THEN n := 1; END_IF;");
    assertThat(machine.truth("one")).isFalse();
    assertThat(machine.truth("two")).isTrue();
    assertThat(machine.word("n")).isEqualTo(1);
  }

  @Test
  void membersAreNamedBehindTheirTypeByADotToo() {
    ScanMachine machine = TestMachine.of("TYPE Mode : (off, slow, fast); END_TYPE\n"
        + "PROGRAM P VAR m : Mode := Mode.slow; n : INT; END_VAR\n"
        + "CASE m OF Mode.off: n := 1; Mode#slow: n := 2; END_CASE; m := Mode.fast; END_PROGRAM");
    assertThat(TestMachine.scanned(machine).word("n")).isEqualTo(2);
    assertThat(machine.word("m")).isEqualTo(2);
  }

  @Test
  void addressesNeedNoName() {
    ScanMachine machine = TestMachine.of("PROGRAM P VAR n : WORD; END_VAR\n"
        + "%QX1.3 := NOT %IX0.0; n := %IW4; %MW6 := 16#1234; END_PROGRAM");
    machine.set("%IW4", 77);
    TestMachine.scanned(machine);
    assertThat(machine.truth("%QX1.3")).isTrue();
    assertThat(machine.word("n")).isEqualTo(77);
    assertThat(machine.word("%MW6")).isEqualTo(0x1234);
  }

  /** Common practice, no source: bit 3 of the word of bytes 0 and 1 is %QX0.3, bit 8 is %QX1.0. */
  @Test
  void overlappingAddressesShareTheirMemory() {
    ScanMachine machine = TestMachine.of("VAR_GLOBAL bit3 AT %QX0.3 : BOOL; all AT %QW0 : WORD := 16#0001;"
        + " high AT %QB1 : BYTE := 16#40; again AT %QX0.3 : BOOL; b0 AT %IX0.0 : BOOL; w AT %IW0 : WORD; END_VAR\n"
        + "PROGRAM P VAR before, after : WORD; seen, seen2 : BOOL; part : BYTE; in1 : WORD; END_VAR\n"
        + "before := all; bit3 := TRUE; %QX1.0 := TRUE; after := all; all := 16#8008; seen := bit3; part := high;\n"
        + "seen2 := again; in1 := w; END_PROGRAM");
    machine.set("b0", true);
    TestMachine.scanned(machine);
    assertThat(new long[] {machine.word("before"), machine.word("after"), machine.word("part"), machine.word("in1")})
        .containsExactly(0x4001, 0x4109, 0x80, 1);
    assertThat(machine.truth("seen") && machine.truth("seen2")).isTrue();
    assertThat(machine.word("high")).isEqualTo(0x80);
    assertThat(machine.truth("%QX1.0")).isFalse();
  }

  /** %QW1 begins with %QX1.0 where numbers count bytes, and with %QX2.0 where they count words. */
  @ParameterizedTest
  @CsvSource({"BYTES, 1, w0", "SIZES, 256, w0", "BY_USE, 1, w0", "BY_USE, 256, w0 AT %QW0"})
  void whatAddressesCountIsChosen(LanguageChoices.Addresses counted, int word, String other) throws Exception {
    List<Source> sources = List.of(new Source("a.st", "VAR_GLOBAL w AT %QW1 : WORD; " + other + " : WORD; END_VAR"
        + " PROGRAM P " + (word == 1 ? "%QX1.0" : "%QX3.0") + " := TRUE; END_PROGRAM"));
    CheckedProgram program = LogicLanguage.compile(sources, LanguageChoices.DEFAULT.with(counted)).program()
        .orElseThrow();
    ScanMachine machine = new ScanMachine(LogicProgram.compile(program, LogicOptions.DEFAULT, new BitSet()));
    TestMachine.scanned(machine);
    assertThat(machine.word("w")).isEqualTo(word);
  }

  /** A signal is a bit of a word by its address, and a variable inside an instance by its path. */
  @Test
  void signalsAreBoundToAddressesAndPaths() {
    Books books = new Books().input("start", Books.BOOL).output("run", Books.BOOL).output("slow", Books.BOOL);
    CheckedProgram program = TestMachine.check("FUNCTION_BLOCK Drive VAR_INPUT go : BOOL; END_VAR"
        + " VAR_OUTPUT on1 : BOOL; END_VAR on1 := go; END_FUNCTION_BLOCK\n"
        + "VAR_GLOBAL inputs AT %IW0 : WORD; END_VAR\n"
        + "PROGRAM Main VAR d : Drive; END_VAR d(go := %IX0.5); %QX2.7 := NOT %IX0.5; END_PROGRAM");
    SignalBinding binding = SignalBinding.bind(program, books.book(),
        Map.of("start", "%IX0.5", "run", "Main.d.on1", "slow", "%QX2.7"));
    assertThat(binding.diagnostics()).isEmpty();
    Replay replay = new Replay(program, binding, books, ScanOptions.DEFAULT);
    replay.at(0, "start", 0).at(12, "start", 1).end(30);
    assertThat(replay.lines()).filteredOn(line -> !line.contains("start")).containsExactly("0.0 run=0 test.st:1",
        "0.0 slow=1 test.st:3", "20.0 run=1 test.st:1", "20.0 slow=0 test.st:3");
  }

  /** Clause 6.5.6.2: R_EDGE and F_EDGE are an R_TRIG and an F_TRIG in the block, of the input. */
  @Test
  void edgesOfInputs() {
    ScanMachine machine = TestMachine.of("FUNCTION_BLOCK B VAR_INPUT up : BOOL R_EDGE; down : BOOL F_EDGE; END_VAR\n"
        + "VAR_OUTPUT rises, falls : INT; END_VAR\n"
        + "IF up THEN rises := rises + 1; END_IF; IF down THEN falls := falls + 1; END_IF; END_FUNCTION_BLOCK\n"
        + "PROGRAM P VAR_INPUT go : BOOL; END_VAR VAR b1 : B; END_VAR b1(up := go, down := go); END_PROGRAM");
    boolean[] course = {true, true, false, true, false, false, true};
    for (int i = 0; i < course.length; i++) {
      machine.set("go", course[i]);
      assertThat(machine.scan(i * 10_000_000L)).isEmpty();
    }
    assertThat(machine.word("b1.rises")).isEqualTo(3);
    assertThat(machine.word("b1.falls")).isEqualTo(2);
  }

  /** Clause 6.6.1.6: where EN is false the body does not run, and ENO is false. */
  @ParameterizedTest
  @CsvSource({"TRUE, 5, 1, 12, 3", "FALSE, 0, 0, 9, 0"})
  void whatIsNotEnabledDoesNotRun(String enable, int sum, int eno, int assigned, int counted) {
    ScanMachine machine = TestMachine.of("FUNCTION Add2 : INT VAR_INPUT a, b : INT; END_VAR Add2 := a + b; END_FUNCTION"
        + " FUNCTION_BLOCK C VAR_INPUT by1 : INT; END_VAR VAR_OUTPUT n : INT; END_VAR n := n + by1; END_FUNCTION_BLOCK"
        + " PROGRAM P VAR en1 : BOOL := " + enable + "; ok, ok2 : BOOL; x : INT; y : INT := 9; c1 : C; END_VAR"
        + " x := Add2(EN := en1, a := 2, b := 3, ENO => ok);"
        + " y := ADD(EN := en1, IN1 := 5, IN2 := 7);"
        + " c1(EN := en1, by1 := 3, ENO => ok2); END_PROGRAM");
    TestMachine.scanned(machine);
    assertThat(new long[] {machine.word("x"), machine.word("ok"), machine.word("y"), machine.word("c1.n")})
        .containsExactly(sum, eno, assigned, counted);
    assertThat(machine.word("ok2")).isEqualTo(eno);
  }

  /** A parameter that a block itself declares under that name is an ordinary one. */
  @Test
  void aDeclaredEnIsAnOrdinaryInput() {
    ScanMachine machine = TestMachine.of("FUNCTION_BLOCK B VAR_INPUT EN : BOOL; END_VAR VAR_OUTPUT n : INT; END_VAR"
        + " n := n + 1; END_FUNCTION_BLOCK PROGRAM P VAR b1 : B; END_VAR b1(EN := FALSE); END_PROGRAM");
    assertThat(TestMachine.scanned(machine).word("b1.n")).isEqualTo(1);
  }

  @Test
  void actionsRunWhereTheyAreCalledOnTheVariablesOfTheirUnit() {
    ScanMachine machine = TestMachine.of("FUNCTION_BLOCK B VAR_OUTPUT n : INT; END_VAR\n"
        + "Twice(); n := n * 10; Once();\n"
        + "ACTION Once: n := n + 1; END_ACTION\nACTION Twice: Once(); Once(); END_ACTION\nEND_FUNCTION_BLOCK\n"
        + "PROGRAM P VAR b1 : B; END_VAR b1(); END_PROGRAM");
    assertThat(TestMachine.scanned(machine).word("b1.n")).isEqualTo(21);
  }

  @Test
  void functionsReturnStructuresAndArrays() {
    ScanMachine machine = TestMachine.of("TYPE Pair : STRUCT a, b : INT; END_STRUCT; END_TYPE\n"
        + "FUNCTION Turned : Pair VAR_INPUT p : Pair; END_VAR Turned.a := p.b; Turned.b := p.a; END_FUNCTION\n"
        + "FUNCTION Filled : ARRAY[1..3] OF INT VAR_INPUT n : INT; END_VAR VAR i : INT; END_VAR\n"
        + "FOR i := 1 TO 3 DO Filled[i] := n * i; END_FOR; END_FUNCTION\n"
        + "FUNCTION_BLOCK Keep VAR_INPUT p : Pair; END_VAR VAR_OUTPUT s : INT; END_VAR s := p.a * 10 + p.b;"
        + " END_FUNCTION_BLOCK\n"
        + "PROGRAM P VAR one : Pair := (a := 1, b := 2); two, three : Pair; list : ARRAY[1..3] OF INT; k : Keep;"
        + " END_VAR\n"
        + "two := Turned(one); three := Turned(Turned(one)); list := Filled(4); k(p := Turned(one)); END_PROGRAM");
    TestMachine.scanned(machine);
    assertThat(new long[] {machine.word("two.a"), machine.word("two.b"), machine.word("three.a"),
        machine.word("three.b"), machine.word("list[3]"), machine.word("k.s")}).containsExactly(2, 1, 1, 2, 12, 21);
  }

  @Test
  void globalsAreFoundBehindTheNameOfTheirFile() {
    Source list = new Source("some/Settings.st", "VAR_GLOBAL limit : INT := 5; END_VAR");
    Source main = new Source("main.st", "PROGRAM P VAR n : INT; END_VAR n := Settings.limit; Settings.limit := 6;"
        + " END_PROGRAM");
    assertThat(LogicLanguage.compile(List.of(list, main)).diagnostics()).isEmpty();
    assertThat(LogicLanguage.compile(List.of(new Source("other.st", list.text()), main)).diagnostics())
        .singleElement().satisfies(it -> assertThat(it.message()).startsWith("Settings is not declared"));
  }

  private static final String HARMLESS = """
      TYPE Pair : STRUCT a : INT; END_STRUCT END_TYPE
      FUNCTION_BLOCK "Motor" VAR_INPUT run : BOOL; END_VAR VAR_OUTPUT lamp : BOOL; END_VAR
      IF #run THEN #lamp := TRUE; END_IF
      END_FUNCTION_BLOCK;
      PROGRAM P VAR m : "Motor"; n : INT; text : WSTRING[9] := "aB"; END_VAR
      m(run := TRUE);
      CASE n OF 0: n := 1; END_CASE
      """;

  /** What is allowed is read with a warning; without it, it is refused by an error that names the way to allow it. */
  @ParameterizedTest
  @EnumSource(names = {"MISSING_SEMICOLONS", "MISSING_ENDS", "QUOTED_NAMES"})
  void whatIsHarmlessIsReadWhereItIsAllowed(Allowance allowance) {
    List<Source> sources = List.of(new Source("a.st", HARMLESS));
    Set<Allowance> all = Set.of(Allowance.values());
    LogicLanguage.Compilation read = LogicLanguage.compile(sources, LanguageChoices.DEFAULT.with(all));
    assertThat(read.diagnostics()).noneMatch(Diagnostic::isError);
    assertThat(read.program()).isPresent();
    Set<Allowance> others = new HashSet<>(all);
    others.remove(allowance);
    assertThat(LogicLanguage.compile(sources, LanguageChoices.DEFAULT.with(others)).diagnostics())
        .filteredOn(Diagnostic::isError).singleElement()
        .satisfies(it -> assertThat(it.hint()).endsWith("--allow " + allowance.word()));
  }

  /** Bounds are those of each call (IEC 61131-3:2013, clause 6.5.3, from memory). The sums are worked out by hand. */
  @Test
  void arraysWithoutBoundsHaveThoseOfTheCall() {
    ScanMachine machine = TestMachine.scanned(TestMachine.of("""
        FUNCTION total : INT
        VAR_IN_OUT values : ARRAY [*] OF INT; END_VAR
        VAR i : DINT; END_VAR
        FOR i := LOWER_BOUND(values, 1) TO UPPER_BOUND(values, 1) DO total := total + values[i]; END_FOR;
        END_FUNCTION
        FUNCTION grid : INT
        VAR_INPUT g : ARRAY[*, *] OF INT; n : INT; END_VAR
        VAR i, j : DINT; END_VAR
        FOR i := LOWER_BOUND(ARR := g, DIM := 1) TO UPPER_BOUND(g, 1) DO
          FOR j := LOWER_BOUND(g, 2) TO UPPER_BOUND(g, 2) DO grid := grid + g[i, j] * n; END_FOR;
        END_FOR;
        END_FUNCTION
        FUNCTION_BLOCK Fill
        VAR_IN_OUT a : ARRAY[*] OF INT; END_VAR
        VAR_OUTPUT calls : INT; END_VAR
        VAR k : DINT; END_VAR
        calls := calls + 1;
        FOR k := LOWER_BOUND(a, 1) TO UPPER_BOUND(a, 1) DO a[k] := calls; END_FOR;
        END_FUNCTION_BLOCK
        FUNCTION twice : INT
        VAR_IN_OUT a : ARRAY[*] OF INT; END_VAR
        twice := 2 * total(a);
        END_FUNCTION
        PROGRAM P
        VAR one : ARRAY[1..3] OF INT := [1, 2, 3]; two : ARRAY[-1..0] OF INT; f : Fill; x, y, z, c, t : INT;
          g : ARRAY[0..1, 5..6] OF INT := [1, 2, 3, 4]; END_VAR
        x := total(one);
        t := twice(one);
        f(a := two);
        f(a := one);
        y := total(values := one) * 10 + total(two);
        z := grid(g, 10);
        c := f.calls;
        END_PROGRAM
        """));
    assertThat(List.of(machine.word("x"), machine.word("t"), machine.word("y"), machine.word("z"), machine.word("c")))
        .isEqualTo(List.of(6L, 12L, 62L, 100L, 2L));
  }

  /** An index beyond the array that was passed is an error, though another call passes a longer one. */
  @Test
  void anIndexIsCheckedAgainstTheArrayThatWasPassed() {
    ScanMachine machine = TestMachine.of("""
        FUNCTION item : INT
        VAR_IN_OUT values : ARRAY[*] OF INT; END_VAR VAR_INPUT i : INT; END_VAR
        item := values[i];
        END_FUNCTION
        PROGRAM P
        VAR long : ARRAY[1..9] OF INT; short : ARRAY[1..2] OF INT; x : INT; END_VAR
        x := item(long, 9);
        x := item(short, 9);
        END_PROGRAM
        """);
    assertThat(machine.scan(0)).hasValueSatisfying(error -> {
      assertThat(error.place().line()).isEqualTo(3);
      assertThat(error.message()).contains("1..2");
    });
  }

  @Test
  void whatNothingCallsIsSaidToBeUnchecked() {
    LogicLanguage.Compilation read = LogicLanguage.compile(List.of(new Source("a.st", "FUNCTION f : INT VAR_IN_OUT"
        + " a : ARRAY[*] OF INT; END_VAR f := a[1]; END_FUNCTION PROGRAM P END_PROGRAM")));
    assertThat(read.program()).isPresent();
    assertThat(read.diagnostics()).singleElement().satisfies(it -> assertThat(it.message()).contains("nothing calls f"));
  }

  private static ScanMachine allowed(Allowance allowance, String text) {
    CheckedProgram program = LogicLanguage.compile(List.of(new Source("a.st", text)),
        LanguageChoices.DEFAULT.with(Set.of(allowance))).program().orElseThrow();
    return machine(program);
  }

  private static ScanMachine machine(CheckedProgram program) {
    try {
      return TestMachine.scanned(new ScanMachine(LogicProgram.compile(program, LogicOptions.DEFAULT, new BitSet())));
    } catch (ProgramCompiler.TooLarge e) {
      throw new AssertionError(e);
    }
  }

  /** A program that is called runs by that alone: twice here, not a third time by itself. */
  @Test
  void aProgramThatIsCalledRunsThen() {
    ScanMachine machine = allowed(Allowance.PROGRAM_NAMES, """
        PROGRAM Brakes VAR n : INT; END_VAR VAR_INPUT more : INT := 1; END_VAR n := n + more; END_PROGRAM
        PROGRAM Main VAR seen : INT; END_VAR
        Brakes(); Brakes.more := 10; Brakes(); seen := Brakes.n; Brakes(more := 0);
        END_PROGRAM
        """);
    assertThat(machine.word("seen")).isEqualTo(11);
    assertThat(machine.word("Brakes.n")).isEqualTo(11);
  }

  @Test
  void enumerationsCountAsTheirNumbers() {
    ScanMachine machine = allowed(Allowance.ENUMERATION_NUMBERS, """
        TYPE Mode : (idle := 3, up, down); END_TYPE
        PROGRAM P VAR m : Mode := Mode#up; n, c : INT; later, same : BOOL; k : Mode; END_VAR
        n := m; later := m > Mode#idle; same := n = Mode#up AND m <> 5; k := 5;
        CASE n OF Mode#idle: c := 1; Mode#up: c := 2; END_CASE;
        END_PROGRAM
        """);
    assertThat(List.of(machine.word("n"), machine.word("k"), machine.word("c"))).isEqualTo(List.of(4L, 5L, 2L));
    assertThat(machine.truth("later") && machine.truth("same")).isTrue();
  }

  @Test
  void headersAndRegionsArePassedOver() {
    String text = """
        FUNCTION_BLOCK Drive
        TITLE = 'drive of the lift'
        AUTHOR : ride
        VERSION : 0.1
        VAR_OUTPUT n : INT; version : INT; END_VAR
        BEGIN
          REGION start of the drive
            n := n + 1; version := 2;
          END_REGION
        END_FUNCTION_BLOCK
        PROGRAM P VAR d : Drive; region : INT; END_VAR d(); region := 3; END_PROGRAM
        """;
    LogicLanguage.Compilation read = LogicLanguage.compile(List.of(new Source("a.st", text)),
        LanguageChoices.DEFAULT.with(Set.of(Allowance.BLOCK_HEADERS, Allowance.REGIONS)));
    ScanMachine machine = machine(read.program().orElseThrow());
    assertThat(List.of(machine.word("d.n"), machine.word("d.version"), machine.word("region")))
        .isEqualTo(List.of(1L, 2L, 3L));
    assertThat(read.diagnostics()).hasSize(2);
  }

  @Test
  void theTypeOfAnEnumerationStandsBehindItsMembers() {
    List<Source> sources = List.of(new Source("a.st", "TYPE Mode : (a, b) USINT := b; Other : (c, d); END_TYPE\n"
        + "PROGRAM P VAR m : Mode; o : Other; END_VAR END_PROGRAM"));
    LanguageChoices choices = LanguageChoices.DEFAULT.with(Set.of(Allowance.BASE_TYPES_BEHIND));
    assertThat(stored(sources, choices, "m")).isEqualTo(Elementary.USINT);
    assertThat(stored(sources, choices, "o")).isEqualTo(Elementary.DINT);
    assertThat(machine(LogicLanguage.compile(sources, choices).program().orElseThrow()).word("m")).isEqualTo(1);
  }

  /** With memory apart for each size, what is written at %QW0 does not show at %QX0.0. */
  @Test
  void eachSizeCanHaveMemoryOfItsOwn() {
    List<Source> sources = List.of(new Source("a.st", "PROGRAM P VAR bit AT %QX0.0 : BOOL; level AT %QW0 : UINT;"
        + " END_VAR level := 3; END_PROGRAM"));
    assertThat(LogicLanguage.compile(sources).diagnostics()).singleElement()
        .satisfies(it -> assertThat(it.hint()).endsWith("--addresses apart"));
    ScanMachine machine = machine(LogicLanguage.compile(sources, LanguageChoices.DEFAULT.with(
        LanguageChoices.Addresses.APART)).program().orElseThrow());
    assertThat(machine.truth("bit")).isFalse();
    assertThat(machine.word("level")).isEqualTo(3);
  }

  /** Constants are known wherever they stand in a unit. */
  @Test
  void boundsAreMadeOfConstantsThatStandFurtherDown() {
    ScanMachine machine = TestMachine.scanned(TestMachine.of("PROGRAM P VAR a : ARRAY[1..most] OF INT := [3(7)]; n : INT;"
        + " END_VAR VAR CONSTANT most : INT := 3; END_VAR n := a[most]; END_PROGRAM"));
    assertThat(machine.word("n")).isEqualTo(7);
  }

  @Test
  void theSizeOfEnumerationsIsChosen() {
    List<Source> sources = List.of(new Source("a.st", "TYPE Mode : (a, b); Own : USINT (c, d); END_TYPE\n"
        + "PROGRAM P VAR m : Mode; o : Own; END_VAR END_PROGRAM"));
    assertThat(stored(sources, LanguageChoices.DEFAULT, "m")).isEqualTo(Elementary.DINT);
    assertThat(stored(sources, LanguageChoices.DEFAULT.with(Elementary.INT), "m")).isEqualTo(Elementary.INT);
    assertThat(stored(sources, LanguageChoices.DEFAULT.with(Elementary.INT), "o")).isEqualTo(Elementary.USINT);
  }

  private static Elementary stored(List<Source> sources, LanguageChoices choices, String variable) {
    return LogicLanguage.compile(sources, choices).program().orElseThrow().symbol(variable).orElseThrow().type()
        .stored().orElseThrow();
  }
}
