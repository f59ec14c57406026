package dev.pawl.grammar.rules.explain;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RuleExplainerTest {

  private static final String RIDE = """
      resolution 10 ms
      type mode = one of (off, manual)
      input p, q, c : bool
      input v : mph
      input m : mode
      zone lift enter rises(p) leave falls(q)
      """;

  private static Explanation explain(String duty) {
    String rule = RIDE + "rule R-1 \"t\" basis practice " + duty;
    RuleBook book = RuleLanguage.compile(List.of(new Source("a.rules", rule)), SourceLoader.none()).book()
        .orElseThrow();
    return new RuleExplainer(book).explain(book.rules().get(0));
  }

  @Test
  void saysAResponseInEveryWay() {
    Explanation explanation = explain("when falls(p) while m = manual unless c must v <= 3 mph within 500 ms");

    assertThat(explanation.words()).containsExactly(
        "Each time that p becomes false, provided that at this instant m is manual, an obligation arises.",
        "Within 500 ms, that instant included, it must be that v is at most 3 mph.",
        "The obligation is dropped as soon as c is true, if it has not been decided before.");
    assertThat(explanation.formula()).isEqualTo("□ (↑¬p ∧ (m = manual) → ◇[0, 500 ms] ((v <= 3 mph) ∨ c))");
    assertThat(explanation.decisionDelay()).isEqualTo(OptionalLong.of(510_000_000));
    assertThat(explanation.signals()).containsExactly("p", "c", "v", "m");
    assertThat(explanation.canBeExercised()).isTrue();
  }

  @Test
  void countsTheFlagsBehindAZone() {
    assertThat(explain("when rises(c) must not occupied(lift)").signals()).containsExactly("p", "q", "c");
  }

  @ParameterizedTest
  @CsvSource(delimiter = ';', quoteCharacter = '\0', value = {
      "when rises(p) must q; □ (↑p → q); 0",
      "when p must q after 1 s; □ (↑p → ◇[1 s, 1 s] q); 1010000000",
      "when p must q after 1 s within 2 s, and stay so for 3 s; □ (↑p → ◇[1 s, 1 s] (¬q U[0, 2 s] (□[0, 3 s] q))); "
          + "6020000000",
      "when p must q throughout 2 s; □ (↑p → □[0, 2 s] q); 2010000000",
      "when p unless c must q throughout 2 s; □ (↑p → (q W[0, 2 s] c)); 2010000000",
      "when p must q before rises(c); □ (↑p → (¬↑c W q)); -1",
      "when p must q within 1 s, and stay so until c; □ (↑p → (¬q U[0, 1 s] (q ∧ (q W c)))); -1",
      "always p for 5 s or (q in last 2 s); □ (■[0, 5 s] p ∨ ◆[0, 2 s] q); 0",
      "never p since c while q; □ (q → ¬(p S c)); 0",
      "never count(rises(p)) in last 5 s > 2; □ (¬(#[-5 s, 0] ↑p > 2)); 0"})
  void writesTheFormulaOfEachForm(String duty, String formula, long delay) {
    Explanation explanation = explain(duty);

    assertThat(explanation.formula()).isEqualTo(formula);
    assertThat(explanation.decisionDelay()).isEqualTo(delay < 0 ? OptionalLong.empty() : OptionalLong.of(delay));
  }

  @ParameterizedTest
  @CsvSource(delimiter = ';', quoteCharacter = '\0', value = {
      "when p and not p must q; No trace can exercise it: it can never be that p is true and p is false.",
      "when rises(p) for 2 s must q; No trace can exercise it: it can never be that p becomes true for 2 s without a "
          + "break.",
      "when v > 5 mph and v < 3 mph must q; "
          + "No trace can exercise it: it can never be that v is more than 5 mph and v is less than 3 mph.",
      "when rises(p) while not p must q; No trace can exercise it: its trigger and its while exclude each other.",
      "when m = off and m = manual must q; No trace can exercise it: it can never be that m is off and m is manual."})
  void saysWhyNoTraceCanExerciseIt(String duty, String why) {
    Explanation explanation = explain(duty);

    assertThat(explanation.canBeExercised()).isFalse();
    assertThat(explanation.exercise()).containsExactly(why);
  }

  @ParameterizedTest
  @CsvSource({"20000000000, 20 s", "500000000, 500 ms", "1500000000, 1.5 s", "90000000000, 90 s", "120000000000, 2 min",
      "1, 1 ns", "3600000000000, 1 h", "1234567890123, 1234567890.123 us", "0, 0 s"})
  void saysDurationsShort(long nanoseconds, String words) {
    assertThat(Quantities.duration(nanoseconds)).isEqualTo(words);
  }

  private static List<String> ways(String duty) {
    RuleBook book = RuleLanguage.compile(List.of(new Source("a.rules", RIDE + "rule R-1 \"t\" basis practice " + duty)),
        SourceLoader.none()).book().orElseThrow();
    return new RuleExplainer(book).waysToTry(book.rules().get(0));
  }

  @Test
  void saysWhatWouldTryARule() {
    assertThat(ways("when falls(p) while m = manual must v <= 3 mph within 500 ms"))
        .containsExactly("p becomes false while m is manual, and just before it v is more than 3 mph");
    assertThat(ways("when rises(p) must q")).containsExactly("p becomes true");
    assertThat(ways("when rises(p) must q tried by rises(c) given m = off tried by trigger"))
        .containsExactly("c becomes true while m is off, at an instant at which q is false", "p becomes true");
    assertThat(ways("when rises(p) must q within 1 s, and stay so until rises(c) stay tried by rises(c)"))
        .containsExactly("c becomes true while R-1 has to stay so");
    assertThat(ways("never v > 3 mph while m = off")).containsExactly("there is a value of v, m while m is off");
    assertThat(ways("when rises(p) and falls(p) must q")).isEmpty();
  }
}
