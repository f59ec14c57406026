package dev.pawl.grammar.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Diagnostic;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Programs damaged at random: whatever comes in, compiling ends with a program or with errors that have a place in the
 * text, never otherwise. A seed that fails is shown, so that it can be run again.
 */
class MutationTest {

  private static final String PROGRAM = """
      TYPE Mode : (off, manual := 5, automatic); Level : INT (0..100); Point : STRUCT x, y : INT := 3; END_STRUCT; END_TYPE
      VAR_GLOBAL CONSTANT N : INT := 4; END_VAR
      VAR_GLOBAL RETAIN lamp AT %QX0.1 : BOOL; table : ARRAY[1..N, 0..2] OF DINT := [1, 2(7)]; END_VAR
      FUNCTION Twice : DINT VAR_INPUT v : DINT; END_VAR Twice := v * 2; END_FUNCTION
      FUNCTION_BLOCK Edge VAR_INPUT clk : BOOL; END_VAR VAR_OUTPUT q : BOOL; END_VAR VAR_IN_OUT n : INT; END_VAR VAR m : BOOL; END_VAR
        q := clk AND NOT m; m := clk; IF q THEN n := n + 1; END_IF;
      END_FUNCTION_BLOCK
      PROGRAM Main
      VAR mode : Mode := automatic; p : Point := (x := 1); e : Edge; t : TON := (PT := T#1s500ms); i, j : INT; w : WORD := 16#F0;
        s : STRING[20] := 'a$'b'; r : REAL := 1.5E-3; l : Level; d : DT := DT#2026-05-01-09:30:00; END_VAR
        (* comment (* nested *) *) // to the end
        e(clk := lamp, n := i, q => lamp);
        t(IN := NOT lamp);
        FOR j := 1 TO N BY 2 DO table[j, 1] := TRUNC_DINT(Twice(j) ** 2.0); EXIT; END_FOR;
        CASE mode OF off, manual: l := LIMIT(0, i, 100); automatic: p.x := p.y MOD 3; ELSE w.%X3 := t.Q; END_CASE;
        WHILE i > 5 AND r < 2.0 DO i := i - 1; CONTINUE; END_WHILE;
        REPEAT s := CONCAT(s, INT_TO_STRING(p.x)); UNTIL LEN(s) > 5 END_REPEAT;
        IF lamp THEN RETURN; ELSIF (i = 3) OR t.ET >= T#20ms THEN lamp := FALSE; ELSE lamp := SEL(lamp, TRUE, FALSE); END_IF;
      END_PROGRAM
      """;

  private static final String[] PIECES = {"(", ")", "[", "]", ";", ":=", "=>", "..", ".", ",", ":", "*", "**", "'",
      "\"", "(*",
      "*)", "//",
      "/*", "#", "%", "^", "$", "{", "}", "16#", "T#", "INT#", "1.5e9", "99999999999999999999", "END_IF;", "IF ",
          "CASE ", " OF ",
      "VAR ",
      "END_VAR ", "ARRAY[", "STRUCT ", "PROGRAM ", "END_PROGRAM ", "FUNCTION ", "NOT ", " AND ", " MOD ", "-",
          "REF_TO ",
      "CLASS ", "\0", "\n", "\u2028", "\ud800", "i", "t", "Main", "e", "Twice(", "Edge", "MUX(", "table", "mode", "p",
          "TON"};

  @Test
  void theProgramItselfIsSound() {
    assertThat(Messages.of(PROGRAM)).isEmpty();
  }

  @Test
  void twoThousandDamagedPrograms() {
    damaged(0, 2_000);
  }

  @Test
  @Tag("soak")
  void manyDamagedPrograms() {
    damaged(1_000_000, 500_000);
  }

  private static void damaged(long firstSeed, int count) {
    int refused = 0;
    for (long seed = firstSeed; seed < firstSeed + count; seed++) {
      String text = damage(new SplittableRandom(seed));
      try {
        LogicLanguage.Compilation compilation = Messages.compile(text);
        boolean errors = compilation.diagnostics().stream().anyMatch(Diagnostic::isError);
        assertThat(compilation.program().isEmpty()).isEqualTo(errors);
        assertThat(compilation.diagnostics()).allSatisfy(diagnostic -> {
          assertThat(diagnostic.position().line()).isBetween(1, (int) text.lines().count() + 1);
          assertThat(diagnostic.message()).isNotBlank().doesNotContain("null");
        });
        refused += errors ? 1 : 0;
      } catch (RuntimeException | StackOverflowError | AssertionError failure) {
        throw new AssertionError("seed " + seed + ":\n" + text, failure);
      }
    }
    assertThat(refused).isBetween(count / 2, count);
  }

  private static String damage(SplittableRandom random) {
    StringBuilder text = new StringBuilder(PROGRAM);
    int changes = 1 + random.nextInt(4);
    for (int i = 0; i < changes; i++) {
      int at = random.nextInt(text.length());
      int end = Math.min(text.length(), at + random.nextInt(1 + random.nextInt(60)));
      switch (random.nextInt(5)) {
        case 0 -> text.delete(at, end);
        case 1 -> text.insert(at, text.substring(at, end));
        case 2 -> text.insert(random.nextInt(text.length()), text.substring(at, end));
        case 3 -> text.insert(at, PIECES[random.nextInt(PIECES.length)]);
        default -> text.replace(at, Math.min(text.length(), at + 1), PIECES[random.nextInt(PIECES.length)]);
      }
    }
    return text.toString();
  }
}
