package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * The rules of {@code grammar/PATTERNS.md} agree with their titles, the formulas of Dwyer, Avrunin and Corbett,
 * Patterns in property specifications for finite-state verification, ICSE 1999, in the mappings published at
 * matthewbdwyer.github.io/psp. The rows "between" and "after-until" of response, and universality as absence of the
 * negation, are from memory.
 */
class PatternsTest {
  private static final int TRACES = 1_000;
  private static final List<String> SCOPES = List.of("GLOBAL", "BEFORE", "AFTER", "BETWEEN", "UNTIL");
  private static final List<String> FAMILIES = List.of("ABSENCE", "EXISTENCE", "UNIVERSALITY", "PRECEDENCE",
      "RESPONSE");

  @Test
  void everyPatternStandsInEveryScope() {
    Set<String> written = book().rules().stream().map(Rule::id).collect(Collectors.toSet());

    for (String family : FAMILIES) {
      for (String scope : SCOPES) {
        assertThat(written).contains(family + "-" + scope);
      }
    }
  }

  @TestFactory
  List<DynamicTest> ruleAgreesWithItsFormula() {
    RuleBook book = book();
    List<List<Set<String>>> traces = new ArrayList<>();
    for (int number = 0; number < TRACES; number++) {
      traces.add(states(new Draw(7_000_000L + number)));
    }
    List<List<Obligations>> judged = traces.stream().map(states -> judge(book, states)).toList();
    return book.rules().stream().map(rule -> DynamicTest.dynamicTest(rule.id() + " " + rule.title(), () -> {
      Ltl formula = Ltl.parse(rule.title());
      int holding = 0;
      for (int number = 0; number < TRACES; number++) {
        List<Set<String>> states = traces.get(number);
        boolean holds = formula.holds(states, 0);
        Verdict verdict = judged.get(number).get(rule.index()).verdict();
        boolean content = verdict == Verdict.HELD || verdict == Verdict.NOT_EXERCISED;
        assertThat(content).as("%s: %s on %s", rule.title(), verdict, states).isEqualTo(holds);
        holding += holds ? 1 : 0;
      }
      assertThat(holding).as("traces that satisfy the formula, of %d", TRACES)
          .isBetween(TRACES / 100, TRACES * 99 / 100);
    })).toList();
  }

  @Test
  void theKnownWrongFormulaDiffers() {
    Ltl published = Ltl.parse("<>r -> (p -> (!r U (s & !r))) U r");
    Ltl wrong = Ltl.parse("<>r -> ([](p -> <>s)) U r");
    List<Set<String>> lateResponse = List.of(Set.of("p"), Set.of("r"), Set.of("s"));
    RuleBook book = book();
    Rule rule = book.rules().stream().filter(candidate -> candidate.id().equals("RESPONSE-BEFORE")).findFirst()
        .orElseThrow();

    assertThat(wrong.holds(lateResponse, 0)).isTrue();
    assertThat(published.holds(lateResponse, 0)).isFalse();
    assertThat(judge(book, lateResponse).get(rule.index()).verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(differing(published, wrong)).as("random traces on which the two formulas differ")
        .isGreaterThan(TRACES / 20);
  }

  private static int differing(Ltl one, Ltl other) {
    int differing = 0;
    for (int number = 0; number < TRACES; number++) {
      List<Set<String>> states = states(new Draw(8_000_000L + number));
      differing += one.holds(states, 0) != other.holds(states, 0) ? 1 : 0;
    }
    return differing;
  }

  private static List<Obligations> judge(RuleBook book, List<Set<String>> states) {
    List<TraceEvent> events = new ArrayList<>();
    for (int i = 0; i < states.size(); i++) {
      for (int signal = 0; signal < book.signals().size(); signal++) {
        events.add(new TraceEvent(10L * i, signal, states.get(i).contains(book.signals().get(signal).name()) ? 1 : 0));
      }
    }
    return EngineRun.judge(book, new Trace(events, OptionalLong.of(10L * states.size()))).rules().stream()
        .map(rule -> rule.obligations()).toList();
  }

  private static List<Set<String>> states(Draw draw) {
    List<Set<String>> states = new ArrayList<>();
    int count = draw.between(1, 9);
    int often = draw.of(List.of(20, 40, 70));
    for (int i = 0; i < count; i++) {
      Set<String> state = new HashSet<>();
      for (String atom : List.of("p", "q", "r", "s")) {
        if (draw.percent(often)) {
          state.add(atom);
        }
      }
      states.add(state);
    }
    return states;
  }

  /** The rule file between the page's fences. */
  private static RuleBook book() {
    try {
      String page = Files.readString(Path.of("..", "..", "grammar", "PATTERNS.md"));
      int begin = page.indexOf("```rules\n") + "```rules\n".length();
      String rules = page.substring(begin, page.indexOf("```", begin));
      Compilation compilation = RuleLanguage.compile(List.of(new Source("PATTERNS.md", rules)), SourceLoader.none());
      return compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
