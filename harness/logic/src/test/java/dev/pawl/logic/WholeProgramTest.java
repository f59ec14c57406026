package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** One program that uses most of the language, run for a few scans. */
class WholeProgramTest {

  @Test
  void aProgramThatUsesMostOfTheLanguageRuns() {
    ScanMachine m = TestMachine.of("""
        TYPE
          Mode : (OFF, MANUAL := 5, AUTO);
          Point : STRUCT x, y : INT := 3; name : STRING[10] := 'ab'; END_STRUCT;
          Level : INT (0..100);
        END_TYPE
        VAR_GLOBAL CONSTANT N : INT := 4; END_VAR
        VAR_GLOBAL
          start AT %IX0.0 : BOOL;
          lamp AT %QX0.1 : BOOL;
          table : ARRAY[1..N] OF DINT := [1, 2(7)];
        END_VAR
        FUNCTION Twice : DINT
        VAR_INPUT v : DINT; END_VAR
        VAR k : DINT; END_VAR
          k := k + v;
          Twice := k * 2;
        END_FUNCTION
        FUNCTION_BLOCK Counter
        VAR_INPUT up : BOOL; step : INT := 1; END_VAR
        VAR_OUTPUT total : INT; END_VAR
        VAR edge : R_TRIG; END_VAR
        VAR_IN_OUT acc : DINT; END_VAR
          edge(CLK := up);
          IF edge.Q THEN total := total + step; acc := acc + 100; END_IF
        ;END_FUNCTION_BLOCK
        PROGRAM Main
        VAR_INPUT go : BOOL; END_VAR
        VAR_OUTPUT speed : REAL; END_VAR
        VAR
          mode : Mode := AUTO; p, q : Point; c : Counter; cs : ARRAY[0..1] OF Counter; sum, acc : DINT; i : INT; t : TON; late : BOOL;
          text : STRING; lvl : Level; w : WORD := 16#F0F0; bit : BOOL; tm : TIME; day : DATE := D#2026-11-25;
        END_VAR
        sum := 0;
        FOR i := 1 TO N DO
          IF i = 3 THEN CONTINUE; END_IF;
          sum := sum + table[i];
        END_FOR;
        CASE mode OF
          OFF: sum := -1;
          MANUAL, AUTO: sum := sum + Twice(Twice(1));
        ELSE sum := -2;
        END_CASE;
        c(up := go, acc := acc, total => i);
        cs[1](up := go, step := 10, acc := acc);
        t(IN := go, PT := T#30ms, Q => late);
        p.x := p.y + 4; q := p;
        text := CONCAT(q.name, '-', INT_TO_STRING(q.x));
        lvl := LIMIT(0, i, 100);
        w.%X0 := late; bit := w.4;
        tm := t.PT * 2 + T#1s;
        speed := 2.5 * INT_TO_REAL(q.x) ** 2;
        lamp := start OR (go AND NOT late);
        END_PROGRAM
        """);
    assertThat(m.scan(0)).isEmpty();
    assertThat(m.word("sum")).isEqualTo(1 + 7 + 0 + 4);
    m.set("go", true);
    assertThat(m.scan(10_000_000)).isEmpty();
    assertThat(m.word("i")).isEqualTo(1);
    assertThat(m.word("acc")).isEqualTo(200);
    assertThat(m.text("text")).isEqualTo("ab-7");
    assertThat(m.real("speed")).isEqualTo(122.5);
    assertThat(m.truth("lamp")).isTrue();
    assertThat(m.word("tm")).isEqualTo(1_060_000_000L);
    assertThat(m.word("cs[1].total")).isEqualTo(10);
    m.scan(30_000_000);
    assertThat(m.truth("late")).isFalse();
    m.scan(40_000_000);
    assertThat(m.truth("late")).isTrue();
    assertThat(m.word("w")).isEqualTo(0xF0F1);
    assertThat(m.truth("lamp")).isFalse();
  }
}
