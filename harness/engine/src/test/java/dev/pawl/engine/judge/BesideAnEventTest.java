package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What happens, and what is so or happens near it in another row: the order is open within the resolution, 6 ns here.
 * In its own row everything is what it seems to be.
 */
class BesideAnEventTest {

  private static final String BEFORE = "0 a 0; 0 b 0; 0 c 0; 0 d 0; ";

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "in its row      | 50 a 1; 50 b 1          | BROKEN",
      "just after      | 50 b 1; 53 a 1; 90 a 0  | UNDECIDED",
      "well after      | 50 b 1; 56 a 1; 90 a 0  | HELD",
      "just before     | 30 a 1; 47 a 0; 50 b 1  | UNDECIDED",
      "goes just after | 30 a 1; 50 b 1; 53 a 0  | UNDECIDED",
      "goes well after | 30 a 1; 50 b 1; 56 a 0  | BROKEN",
      "goes in its row | 30 a 1; 50 b 1; 50 a 0  | HELD"})
  void aStateThatMayNotBeThereWhenSomethingHappens(String when, String rows, Verdict verdict) {
    assertThat(verdict("never rises(b) and a", rows)).as(when).isEqualTo(verdict);
    assertThat(verdict("always not (rises(b) and a)", rows)).as(when).isEqualTo(verdict);
    assertThat(verdict("never rises(b) while a", rows)).as(when).isEqualTo(verdict);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "in its row  | 50 d 1; 50 b 1         | HELD",
      "just before | 47 b 1; 50 d 1         | UNDECIDED",
      "just after  | 50 d 1; 53 b 1         | UNDECIDED",
      "well after  | 50 d 1; 56 b 1         | HELD",
      "well before | 43 b 1; 50 d 1         | BROKEN",
      "and again   | 47 b 1; 49 b 0; 50 d 1; 60 b 1 | HELD"})
  void aResponseThatHappens(String when, String rows, Verdict verdict) {
    assertThat(verdict("when rises(d) must rises(b) within 20 ns", rows)).as(when).isEqualTo(verdict);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "in its row  | 50 d 1; 50 b 1         | BROKEN",
      "just before | 47 b 1; 50 d 1         | UNDECIDED",
      "just after  | 50 d 1; 53 b 1         | UNDECIDED",
      "well after  | 50 d 1; 56 b 1         | BROKEN",
      "well before | 43 b 1; 50 d 1         | HELD"})
  void whatMustNotHappen(String when, String rows, Verdict verdict) {
    assertThat(verdict("when rises(d) must not rises(b) throughout 20 ns", rows)).as(when).isEqualTo(verdict);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "in its row  | 50 d 1; 50 b 1         | HELD",
      "just before | 47 b 1; 50 d 1         | BROKEN",
      "just after  | 50 d 1; 53 b 1         | BROKEN"})
  void whatHasToHappenInTheSameRow(String when, String rows, Verdict verdict) {
    assertThat(verdict("when rises(d) must rises(b)", rows)).as(when).isEqualTo(verdict);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "so long since   | 30 a 1; 50 d 1; 50 b 1         | HELD",
      "just before     | 47 a 1; 50 d 1; 50 b 1         | UNDECIDED",
      "goes just after | 30 a 1; 50 d 1; 50 b 1; 53 a 0 | UNDECIDED",
      "not at all      | 50 d 1; 50 b 1                 | BROKEN"})
  void anEventAndAStateInTheSameRow(String when, String rows, Verdict verdict) {
    assertThat(verdict("when rises(d) must rises(b) and a", rows)).as(when).isEqualTo(verdict);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "P just after  | 50 d 1; 53 b 1; 80 c 1          | UNDECIDED",
      "P well after  | 50 d 1; 56 b 1; 80 c 1          | HELD",
      "Q just after  | 50 d 1; 53 c 1; 80 b 1          | UNDECIDED",
      "Q well after  | 50 d 1; 56 c 1; 80 b 1          | BROKEN",
      "P in its row  | 50 d 1; 50 b 1; 80 c 1          | HELD"})
  void whatHappensBeforeSomethingElseDoes(String when, String rows, Verdict verdict) {
    assertThat(verdict("when rises(d) must rises(b) before rises(c)", rows)).as(when).isEqualTo(verdict);
  }

  /** What a demand becomes in the trigger's row may rest on another signal, which turned just before. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "just before | 20 a 1; 20 b 1; 47 a 0; 50 b 0; 50 d 1 | UNDECIDED",
      "well before | 20 a 1; 20 b 1; 44 a 0; 50 b 0; 50 d 1 | BROKEN"})
  void aDemandThatFallsInTheTriggersRow(String when, String rows, Verdict verdict) {
    assertThat(verdict("when rises(d) must a or b", rows)).as(when).isEqualTo(verdict);
    assertThat(verdict("when rises(d) must a or b within 20 ns", rows)).as(when).isEqualTo(verdict);
  }

  /** A trigger that stood when the log began: a response too near to the deadline may be late even from there. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "in time | 10 c 1 | NOT_EXERCISED",
      "near    | 24 c 1 | UNDECIDED",
      "late    | 40 c 1 | BROKEN"})
  void aTriggerThatStoodAtTheStart(String when, String rows, Verdict verdict) {
    assertThat(judgeRule("resolution 6 ns when b must c within 20 ns", "0 b 1; 0 c 0; " + rows, 200).obligations()
        .verdict()).as(when).isEqualTo(verdict);
  }

  private static Verdict verdict(String rule, String rows) {
    return judgeRule("resolution 6 ns " + rule, BEFORE + rows, 200).obligations().verdict();
  }
}
