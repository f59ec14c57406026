package dev.pawl.run.stress;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.loop.Truth;
import java.util.BitSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class MistakesTest {

  private static final Source PROGRAM = new Source("small.st", """
      PROGRAM Small
      VAR_INPUT stop, start : BOOL; speed : REAL; END_VAR
      VAR_OUTPUT run, lamp : BOOL; END_VAR
      VAR late : TON; END_VAR   (* AND NOT a term *)
        IF NOT stop THEN
          lamp := TRUE;
        END_IF;
        late(IN := start, PT := T#2s500ms);
        run := stop AND (run OR late.Q) AND speed >= 1.5;
      END_PROGRAM
      """);

  private static List<String> planted(String kind) {
    return Mistakes.of(PROGRAM).stream().filter(it -> it.kind().equals(kind))
        .map(it -> it.line() + ": " + it.before() + " -> " + it.after()).toList();
  }

  @Test
  void findsEachKindOfMistakeWhereItCanBe() {
    assertThat(planted("negated condition")).containsExactly("5: NOT stop -> stop");
    assertThat(planted("negated value")).contains("8: start -> NOT (start)",
        "9: stop AND (run OR late.Q) AND speed >= 1.5 -> NOT (stop AND (run OR late.Q) AND speed >= 1.5)");
    assertThat(planted("dropped term")).containsExactly("9: AND (run OR late.Q) -> ", "9: stop AND -> ",
        "9: OR late.Q -> ", "9: run OR -> ", "9: AND speed >= 1.5 -> ", "9: (run OR late.Q) AND -> ");
    assertThat(planted("other operator")).containsExactly("9: AND -> OR", "9: OR -> AND", "9: AND -> OR");
    assertThat(planted("other comparison")).containsExactly("9: >= -> <");
    assertThat(planted("other constant")).containsExactly("6: TRUE -> FALSE", "9: 1.5 -> 3.0", "9: 1.5 -> 0.15");
    assertThat(planted("other time")).containsExactly("8: T#2s500ms -> T#0s0ms", "8: T#2s500ms -> T#20s5000ms");
    assertThat(planted("timer or edge of another kind")).containsExactly("4: TON -> TOF", "4: TON -> TP");
    assertThat(planted("swapped variable")).contains("5: stop -> start", "9: run -> lamp");
    assertThat(planted("deleted call")).containsExactly("8: late(IN := start, PT := T#2s500ms); -> ;");
    assertThat(planted("deleted assignment")).hasSize(1).allMatch(it -> it.startsWith("9: run :="));
    assertThat(planted("latch never set")).containsExactly("6: lamp := TRUE; -> ;");
    assertThat(planted("other order")).hasSize(1).allMatch(it -> it.startsWith("8: late(") && it.contains("-> run :="));
  }

  /** Nothing is planted in remarks, and no text twice; nearly all are programs. */
  @Test
  void whatItPlantsIsMostlyAProgram() {
    List<Mistake> all = Mistakes.of(PROGRAM);
    assertThat(all).extracting(Mistake::text).doesNotHaveDuplicates().doesNotContain(PROGRAM.text())
        .allMatch(it -> it.contains("(* AND NOT a term *)"));
    long programs = all.stream().filter(it -> LogicLanguage.compile(it.in(List.of(PROGRAM))).program().isPresent())
        .count();
    assertThat(programs).isGreaterThan(all.size() * 9L / 10);
  }

  @Test
  void aResultIsReadAsItWasWritten() {
    BitSet lost = BitSet.valueOf(new long[] {5});
    MistakeResult result = new MistakeResult(true, false, 3, new int[] {0, 2, 0}, lost, Set.of(
        Truth.Kind.CONTACT, Truth.Kind.FOOLED), Set.of(Truth.Kind.FOOLED), "a day");
    MistakeResult again = MistakeResult.of(result.line(), 3).orElseThrow();
    assertThat(again.line()).isEqualTo(result.line());
    assertThat(again.lost()).isEqualTo(lost);
    assertThat(again.untold()).containsExactly(Truth.Kind.FOOLED);
    assertThat(again.noticedBy()).containsExactly(0, 2, 0);
    assertThat(MistakeResult.of(result.line().substring(0, 12), 3)).isEmpty();
  }
}
