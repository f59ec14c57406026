package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.ScanOptions.Outage;
import dev.pawl.logic.ScanOptions.Restart;
import dev.pawl.logic.code.ProgramCompiler;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What programs of contractors have and the standard has not, read where it is allowed. None of it has a source; the
 * values are worked out by hand from what the manual says of each.
 */
class LooseLogicTest {

  private static final String BARE_CALLS = """
      FUNCTION_BLOCK Count VAR_OUTPUT n : INT; END_VAR n := n + 1; END_FUNCTION_BLOCK
      PROGRAM P VAR c : Count; twice : INT; END_VAR
      c;
      Again;
      ACTION Again: c; twice := twice + 2; END_ACTION
      END_PROGRAM
      """;
  private static final String REMARKS = """
      === lamps of the door ===
      PROGRAM P VAR n : INT; END_VAR
      // --- first part
      n := n + 1;
      ----------------
      n := n + 10;
      END_PROGRAM
      """;
  private static final String LATE = """
      PROGRAM P VAR n : INT; END_VAR
      n := n + 1;
      Ten();
      END_PROGRAM
      ACTION Ten: n := n * 10; END_ACTION
      ACTION Never: n := 0; END_ACTION
      """;

  private static final String GIVEN_NOTHING = """
      FUNCTION_BLOCK Sum VAR_INPUT step : INT := 5; END_VAR VAR_OUTPUT all : INT; END_VAR all := all + step;
      END_FUNCTION_BLOCK
      FUNCTION Twice : INT VAR_INPUT n : INT := 7; END_VAR Twice := n * 2; END_FUNCTION
      PROGRAM P VAR one, two : Sum; d : INT; END_VAR
      one(step := ); two(step := 3); two(step := ); d := Twice(n := );
      END_PROGRAM
      """;
  private static final String DIARY = """
      FUNCTION_BLOCK Diary VAR_INPUT note : BOOL; END_VAR {{ write_down(note); }} END_FUNCTION_BLOCK
      FUNCTION_BLOCK Clerk VAR book : Diary; END_VAR book(note := TRUE); END_FUNCTION_BLOCK
      """;
  private static final String BLANKS = """
      PROGRAM P VAR short : TIME := T# 250ms; long : LTIME := LTIME#  1h30m; n : INT; END_VAR
      IF short > t#100ms THEN n := 1; END_IF;
      END_PROGRAM
      """;
  private static final String INNER = """
      PROGRAM P VAR_GLOBAL shared : INT := 4; END_VAR VAR own : INT; END_VAR own := shared; shared := shared + 1;
      END_PROGRAM
      PROGRAM Q VAR seen : INT; END_VAR seen := shared; END_PROGRAM
      """;
  private static final String LETTERS = """
      TYPE Zustand : (Geöffnet, Geschlossen); END_TYPE
      PROGRAM P VAR tür : Zustand := Geschlossen; zähler : INT; END_VAR
      IF TÜR = Zustand#Geschlossen THEN Zähler := zähler + 3; tür := geöffnet; END_IF;
      END_PROGRAM
      """;

  private static LogicLanguage.Compilation read(Set<Allowance> allowed, Source... sources) {
    return LogicLanguage.compile(List.of(sources), LanguageChoices.DEFAULT.with(allowed));
  }

  private static CheckedProgram program(Allowance allowed, String text) {
    LogicLanguage.Compilation read = read(Set.of(allowed), new Source("door.st", text));
    assertThat(read.diagnostics()).noneMatch(Diagnostic::isError);
    return read.program().orElseThrow();
  }

  private static ScanMachine machine(CheckedProgram program) {
    try {
      return new ScanMachine(LogicProgram.compile(program, LogicOptions.DEFAULT, new BitSet()));
    } catch (ProgramCompiler.TooLarge e) {
      throw new AssertionError(e);
    }
  }

  private static ScanMachine scanned(Allowance allowed, String text) {
    return TestMachine.scanned(machine(program(allowed, text)));
  }

  private static List<String> errors(LogicLanguage.Compilation read) {
    return read.diagnostics().stream().filter(Diagnostic::isError).map(each -> each.message() + " = " + each.hint())
        .toList();
  }

  @Test
  void statementsWithoutAUnitAreAProgramByTheNameOfTheFile() {
    ScanMachine machine = scanned(Allowance.MISSING_UNITS, "VAR n : INT := 4; END_VAR\nn := n + 1;\n");
    assertThat(machine.word("door.n")).isEqualTo(5);
  }

  @Test
  void variablesWithoutAUnitAreGlobal() {
    LogicLanguage.Compilation read = read(Set.of(Allowance.MISSING_UNITS),
        new Source("list.st", "VAR CONSTANT limit : INT := 7; END_VAR\nVAR shared : INT; END_VAR"),
        new Source("main.st", "PROGRAM P VAR own : INT; END_VAR shared := limit; own := list.shared + 1; END_PROGRAM"));
    ScanMachine machine = TestMachine.scanned(machine(read.program().orElseThrow()));
    assertThat(machine.word("shared")).isEqualTo(7);
    assertThat(machine.word("own")).isEqualTo(8);
  }

  @ParameterizedTest
  @CsvSource({"MISSING_UNITS, missing-units", "COMMENT_LINES, comment-lines", "ACTIONS_BEHIND, actions-behind",
      "CALLS_WITHOUT_BRACKETS, calls-without-brackets", "WRITTEN_INPUTS, written-inputs",
      "INIT_PROGRAMS, init-programs", "ROUND_STRING_LENGTHS, round-string-lengths", "EMPTY_ARGUMENTS, empty-arguments",
      "UNUSED_FOREIGN_BODIES, unused-foreign-bodies", "BLANKS_IN_DURATIONS, blanks-in-durations",
      "INNER_GLOBALS, inner-globals", "OTHER_LETTERS, other-letters"})
  void whatIsNotAllowedIsRefusedByOneMessageThatNamesTheWord(Allowance allowance, String word) {
    String text = switch (allowance) {
      case MISSING_UNITS -> "VAR n : INT; END_VAR\nn := n + 1;\nn := n + 2;";
      case COMMENT_LINES -> REMARKS;
      case ACTIONS_BEHIND -> LATE;
      case CALLS_WITHOUT_BRACKETS -> BARE_CALLS;
      case WRITTEN_INPUTS -> "PROGRAM P VAR_INPUT a : INT; END_VAR a := a + 1; a := 2; END_PROGRAM";
      case INIT_PROGRAMS -> "VAR_GLOBAL n : INT; END_VAR PROGRAM _INIT n := 1; END_PROGRAM"
          + " PROGRAM _CYCLIC END_PROGRAM PROGRAM _EXIT n := 2; END_PROGRAM";
      case EMPTY_ARGUMENTS -> GIVEN_NOTHING;
      case UNUSED_FOREIGN_BODIES -> DIARY + "PROGRAM P END_PROGRAM";
      case BLANKS_IN_DURATIONS -> BLANKS;
      case INNER_GLOBALS -> INNER;
      case OTHER_LETTERS -> LETTERS;
      default -> "PROGRAM P VAR a : STRING(5); b : STRING(6); END_VAR END_PROGRAM";
    };
    assertThat(errors(read(Set.of(), new Source("door.st", text)))).singleElement()
        .satisfies(it -> assertThat(it).endsWith("all the same with --allow " + word));
    Set<Allowance> others = EnumSet.allOf(Allowance.class);
    others.remove(allowance);
    assertThat(errors(read(others, new Source("door.st", text)))).hasSize(1);
    assertThat(errors(read(Set.of(allowance), new Source("door.st", text)))).isEmpty();
  }

  @Test
  void allThatCouldBeAllowedIsToldInOneMessageOverAllFiles() {
    List<String> errors = errors(read(Set.of(), new Source("one.st", "IF a THEN a := FALSE; END_IF"),
        new Source("two.st", "VAR_GLOBAL a : BOOL; s : STRING(5); END_VAR"),
        new Source("three.st", "FUNCTION_BLOCK F VAR_OUTPUT a : INT; END_VAR a := 1;")));
    assertThat(errors).singleElement().satisfies(it -> assertThat(it).contains("of two.st", "of three.st")
        .endsWith("with --allow missing-units --allow missing-semicolons --allow round-string-lengths"
            + " --allow missing-ends"));
  }

  /** Of a block such an input keeps its value, of a function it has its first value. */
  @Test
  void anInputThatIsGivenNothingIsNotGiven() {
    ScanMachine machine = scanned(Allowance.EMPTY_ARGUMENTS, GIVEN_NOTHING);
    assertThat(List.of(machine.word("one.all"), machine.word("two.all"), machine.word("d")))
        .isEqualTo(List.of(5L, 6L, 14L));
  }

  @Test
  void blocksWithForeignBodiesAreLeftOutWhereNothingUsesThem() {
    assertThat(scanned(Allowance.UNUSED_FOREIGN_BODIES, DIARY + "PROGRAM P VAR n : INT; END_VAR n := 3; END_PROGRAM")
        .word("n")).isEqualTo(3);
  }

  /** Also by a block in between, by a global variable, or by being the program's own. */
  @ParameterizedTest
  @ValueSource(strings = {"PROGRAM P VAR c : Clerk; END_VAR c(); END_PROGRAM",
      "VAR_GLOBAL d : Diary; END_VAR PROGRAM P END_PROGRAM", "PROGRAM P { write_down(1); } END_PROGRAM"})
  void aForeignBodyThatIsUsedIsRefusedWhateverIsAllowed(String rest) {
    assertThat(errors(read(EnumSet.allOf(Allowance.class), new Source("door.st", DIARY + rest)))).singleElement()
        .satisfies(it -> assertThat(it).startsWith("a body of another language, in braces, is not supported"));
  }

  /** What a choice in braces leaves out must not run: with the braces passed over, all of it would. */
  @ParameterizedTest
  @ValueSource(strings = {"{IF defined (x)} n := 1; {ELSE} n := 2; {END_IF}", "{#ifdef x} n := 1; {#endif}",
      "{ ifndef x } n := 1; { endif }"})
  void aChoiceInBracesIsRefusedWhateverIsAllowed(String body) {
    assertThat(errors(read(EnumSet.allOf(Allowance.class), new Source("door.st", "PROGRAM P VAR n : INT; END_VAR\n"
        + body + "\nEND_PROGRAM")))).singleElement().satisfies(it -> assertThat(it).startsWith("a choice in braces"));
  }

  @Test
  void otherRemarksInBracesArePassedOver() {
    assertThat(TestMachine.scanned(TestMachine.of("{define x} PROGRAM P VAR {attribute 'if'} n : INT; END_VAR\n"
        + "{region 'lamps'} n := 2; {endregion} END_PROGRAM")).word("n")).isEqualTo(2);
  }

  @Test
  void aBlankInADurationIsNone() {
    ScanMachine machine = scanned(Allowance.BLANKS_IN_DURATIONS, BLANKS);
    assertThat(List.of(machine.word("short"), machine.word("long"), machine.word("n")))
        .isEqualTo(List.of(250_000_000L, 5_400_000_000_000L, 1L));
  }

  @Test
  void globalsInsideAUnitAreThoseOfAll() {
    ScanMachine machine = scanned(Allowance.INNER_GLOBALS, INNER);
    assertThat(List.of(machine.word("own"), machine.word("seen"), machine.word("shared")))
        .isEqualTo(List.of(4L, 5L, 5L));
  }

  /** Upper and lower case are one, as of the other letters. */
  @Test
  void namesHaveOtherLetters() {
    ScanMachine machine = scanned(Allowance.OTHER_LETTERS, LETTERS);
    assertThat(List.of(machine.word("zähler"), machine.word("tür"))).isEqualTo(List.of(3L, 0L));
  }

  /** Two names that would become one in upper case are never taken for one. */
  @ParameterizedTest
  @ValueSource(strings = {"straße", "kızıl", "\u017Fum", "ﬁn", "İx", "\u212A"})
  void lettersThatBecomeOthersAreRefused(String name) {
    List<String> errors = errors(read(Set.of(Allowance.OTHER_LETTERS),
        new Source("one.st", "PROGRAM P VAR " + name + " : BOOL; END_VAR " + name + " := TRUE; END_PROGRAM")));
    assertThat(errors).singleElement().satisfies(it -> assertThat(it).contains("whose upper case"));
  }

  /** What is refused by name and what could be allowed is one message, with all remedies. */
  @Test
  void whatIsRefusedIsToldWithWhatCouldBeAllowed() {
    List<String> errors = errors(read(Set.of(), new Source("one.st", "IF a THEN a := FALSE; END_IF"),
        new Source("two.st", "USING Doors;\nPROGRAM P VAR p : REF_TO INT; END_VAR p^ := 3; END_PROGRAM")));
    assertThat(errors).singleElement().satisfies(it -> assertThat(it).contains("USING is not supported")
        .contains("in line 2: REF_TO is not supported").contains("VAR_IN_OUT")
        .endsWith("mend the rest, or read it all the same with --allow missing-units --allow missing-semicolons"));
  }

  @Test
  void linesOfSignsAreRemarks() {
    assertThat(scanned(Allowance.COMMENT_LINES, REMARKS).word("n")).isEqualTo(11);
  }

  /** The block runs once by itself, and once in the action. */
  @Test
  void aNameByItselfIsACall() {
    ScanMachine machine = scanned(Allowance.CALLS_WITHOUT_BRACKETS, BARE_CALLS);
    assertThat(machine.word("c.n")).isEqualTo(2);
    assertThat(machine.word("twice")).isEqualTo(2);
  }

  /** An action that no statement calls does not run. */
  @Test
  void actionsBehindTheEndOfTheirUnitAreItsOwn() {
    assertThat(scanned(Allowance.ACTIONS_BEHIND, LATE).word("n")).isEqualTo(10);
  }

  @Test
  void theLengthOfAStringStandsInRoundBrackets() {
    ScanMachine machine = scanned(Allowance.ROUND_STRING_LENGTHS, """
        TYPE Colour : STRING(3); Kind : INT (1..5); One : (STRINGS); END_TYPE
        PROGRAM P VAR CONSTANT most : INT := 2; END_VAR VAR s : STRING(most); a : ARRAY[1..2] OF STRING(4); c : Colour;
        n, m, k : INT; END_VAR
        s := 'abcdef'; a[2] := 'abcdef'; c := 'abcdef'; n := LEN(s); m := LEN(a[2]); k := LEN(c);
        END_PROGRAM
        """);
    assertThat(List.of(machine.word("n"), machine.word("m"), machine.word("k"))).isEqualTo(List.of(2L, 4L, 3L));
  }

  /** What the program wrote to its input is gone with the next scan, in which the trace gives the value again. */
  @Test
  void inputsAreReadAnewBeforeEachScan() {
    Books books = new Books().input("level", Books.COUNT).output("seen", Books.COUNT).output("last", Books.COUNT);
    CheckedProgram program = program(Allowance.WRITTEN_INPUTS, """
        PROGRAM P VAR_INPUT level : INT; END_VAR VAR_OUTPUT seen, last : INT; END_VAR
        seen := level;
        level := level + 100;
        last := level;
        END_PROGRAM
        """);
    Replay replay = new Replay(program, SignalBinding.bind(program, books.book(), Map.of()), books,
        ScanOptions.every(10_000_000));
    replay.at(0, "level", 3.0).at(25, "level", 4.0).end(35);
    assertThat(replay.lines().stream().map(line -> line.replaceAll(" \\S+$", "")).toList()).containsExactly(
        "0.0 level=3.0", "0.0 seen=3.0", "0.0 last=103.0",
        "25.0 level=4.0", "30.0 seen=4.0", "30.0 last=104.0");
  }

  /** An input of a block keeps what the block wrote until the next call gives it another. */
  @Test
  void anInputOfABlockKeepsWhatTheBlockWrites() {
    ScanMachine machine = scanned(Allowance.WRITTEN_INPUTS, """
        FUNCTION_BLOCK Down VAR_INPUT n : INT; END_VAR n := n - 1; END_FUNCTION_BLOCK
        FUNCTION Half : INT VAR_INPUT n : INT; END_VAR n := n / 2; Half := n; END_FUNCTION
        PROGRAM P VAR d : Down; a, b, h, given : INT := 8; END_VAR
        d(n := 5); a := d.n; d(); b := d.n; h := Half(given);
        END_PROGRAM
        """);
    assertThat(List.of(machine.word("a"), machine.word("b"), machine.word("h"), machine.word("given")))
        .isEqualTo(List.of(4L, 3L, 4L, 8L));
  }

  private static final String INIT = """
      VAR_GLOBAL n, first : INT; go AT %IX0.0 : BOOL; END_VAR
      VAR_GLOBAL RETAIN starts : INT; END_VAR
      PROGRAM _CYCLIC n := n + 1; IF first = 0 THEN first := n; END_IF; END_PROGRAM
      PROGRAM _INIT n := 10; starts := starts + 1; END_PROGRAM
      PROGRAM _EXIT n := 1000; END_PROGRAM
      """;

  /** Before the first scan, wherever it stands; the other never. */
  @Test
  void theInitProgramRunsOnceAndFirst() {
    ScanMachine machine = machine(program(Allowance.INIT_PROGRAMS, INIT));
    for (int scan = 0; scan < 3; scan++) {
      assertThat(machine.scan(scan * 10_000_000L)).isEmpty();
    }
    assertThat(List.of(machine.word("n"), machine.word("first"), machine.word("starts")))
        .isEqualTo(List.of(13L, 11L, 1L));
  }

  @ParameterizedTest
  @CsvSource({"WARM, 2", "COLD, 1"})
  void theInitProgramRunsAgainAfterARestart(Restart restart, long starts) {
    Books books = new Books().input("go", Books.BOOL).output("n", Books.COUNT).output("starts", Books.COUNT);
    CheckedProgram program = program(Allowance.INIT_PROGRAMS, INIT);
    Replay replay = new Replay(program, SignalBinding.bind(program, books.book(), Map.of()), books,
        ScanOptions.every(10_000_000).withOutages(List.of(new Outage(15_000_000, 25_000_000, restart))));
    replay.at(0, "go", 0).end(35);
    List<String> lines = new ArrayList<>(replay.lines());
    assertThat(lines).anyMatch(line -> line.startsWith("10.0 n=12.0")).anyMatch(line -> line.startsWith("30.0 n=11.0"));
    assertThat(lines.stream().filter(line -> line.contains("starts=")).reduce((a, b) -> b).orElseThrow())
        .contains("starts=" + starts + ".0");
  }

  /** ENO is that of the last call, FALSE before the first (IEC 61131-3:2013, clause 6.6.1.6, from memory). */
  @Test
  void enoOfAnInstanceIsThatOfItsLastCall() {
    ScanMachine machine = TestMachine.of("""
        PROGRAM P VAR_INPUT go : BOOL; END_VAR
        VAR c, d : CTU; before, after, named : BOOL; n : INT; END_VAR
        before := c.ENO;
        c(EN := go, CU := TRUE, PV := 1, ENO => named);
        after := c.ENO;
        d(EN := c.ENO, CU := TRUE, PV := 1);
        IF d.ENO THEN n := n + 1; END_IF;
        END_PROGRAM
        """);
    boolean[][] course = {{false, false, false}, {true, false, true}, {true, true, true}, {false, true, false}};
    for (int i = 0; i < course.length; i++) {
      machine.set("go", course[i][0] ? 1 : 0);
      assertThat(machine.scan(i * 10_000_000L)).isEmpty();
      assertThat(List.of(machine.truth("before"), machine.truth("after"), machine.truth("named"))).as("scan " + i)
          .isEqualTo(List.of(course[i][1], course[i][2], course[i][2]));
    }
    assertThat(machine.word("n")).isEqualTo(2);
    assertThat(machine.word("d.CV")).isEqualTo(1);
  }

  /** Each call fills the array that it is given. */
  @Test
  void outputsOfFunctionsAreArraysWithoutBounds() {
    ScanMachine machine = TestMachine.scanned(TestMachine.of("""
        FUNCTION Squares : INT
        VAR_OUTPUT all : ARRAY[*] OF INT; END_VAR VAR i : DINT; END_VAR
        FOR i := LOWER_BOUND(all, 1) TO UPPER_BOUND(all, 1) DO all[i] := DINT_TO_INT(i * i); END_FOR;
        Squares := DINT_TO_INT(UPPER_BOUND(all, 1));
        END_FUNCTION
        PROGRAM P VAR a : ARRAY[1..3] OF INT; b : ARRAY[-2..0] OF INT; x, y : INT; END_VAR
        x := Squares(all => a); y := Squares(all => b);
        END_PROGRAM
        """));
    assertThat(List.of(machine.word("a[1]"), machine.word("a[3]"), machine.word("x"), machine.word("b[-2]"),
        machine.word("b[0]"), machine.word("y"))).isEqualTo(List.of(1L, 9L, 3L, 4L, 0L, 0L));
  }

  /** Only a program with an instance is a pattern; the others run by their calls. */
  @Test
  void programsAreCalledByNameBesideAConfiguration() {
    ScanMachine machine = scanned(Allowance.PROGRAM_NAMES, """
        PROGRAM Brakes VAR n : INT; END_VAR n := n + 1; END_PROGRAM
        PROGRAM Main VAR seen : INT; END_VAR Brakes(); Brakes(); seen := Brakes.n; END_PROGRAM
        CONFIGURATION C RESOURCE R ON PLC TASK t(INTERVAL := T#10ms, PRIORITY := 1);
        PROGRAM i1 WITH t : Main; END_RESOURCE END_CONFIGURATION
        """);
    assertThat(machine.word("i1.seen")).isEqualTo(2);
  }

  private static List<String> warnings(String text) {
    return LogicLanguage.compile(List.of(new Source("a.st", text))).diagnostics().stream()
        .filter(each -> !each.isError()).map(Diagnostic::message).toList();
  }

  @Test
  void twoUnitsThatWriteOneVariableAreWarnedOfOnce() {
    assertThat(warnings("""
        VAR_GLOBAL lamp : BOOL; seen : INT; END_VAR
        PROGRAM A lamp := TRUE; seen := 1; lamp := FALSE; END_PROGRAM
        PROGRAM B VAR n : INT; END_VAR lamp := n > 3; n := seen; lamp := n > 2; END_PROGRAM
        """)).singleElement().satisfies(it -> assertThat(it).contains("lamp").contains("what comes last in the scan"));
  }

  @Test
  void writersThatOnlyWriteSometimesAreNotWarnedOf() {
    assertThat(warnings("""
        VAR_GLOBAL lamp : BOOL; mode : INT; END_VAR
        PROGRAM A IF mode = 1 THEN lamp := TRUE; END_IF; END_PROGRAM
        PROGRAM B IF mode = 2 THEN lamp := FALSE; END_IF; END_PROGRAM
        """)).isEmpty();
  }
}
