package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.engine.reference.Judgement;
import org.junit.jupiter.api.Test;

/**
 * What is nearer to where a verdict turns than the resolution leaves it undecided, whatever the form; here mostly a
 * resolution of 2 ns.
 */
class NearMissTest {
  private static final String ALL_OFF = "0 a 0; 0 b 0; 0 c 0; 0 d 0; ";

  private static Judgement.OfRule judged(String rule, String events) {
    return judgeRule("resolution 2 ns " + rule, ALL_OFF + events, 60);
  }

  private static void gives(Verdict verdict, String rule, String events) {
    Obligations obligations = judged(rule, events).obligations();
    assertThat(obligations.verdict()).as(events + " " + obligations).isEqualTo(verdict);
  }

  /** A drive that has to be off from the opening on: as near as it is for {@code within}, and stay so. */
  @Test
  void theOpeningOfAWindowThroughout() {
    String rule = "when rises(a) must b after 10 ns throughout 20 ns";
    gives(Verdict.HELD, rule, "5 a 1; 13 b 1");
    gives(Verdict.UNDECIDED, rule, "5 a 1; 14 b 1");
    gives(Verdict.UNDECIDED, rule, "5 a 1; 16 b 1");
    gives(Verdict.BROKEN, rule, "5 a 1; 17 b 1");
    gives(Verdict.UNDECIDED, rule, "2 b 1; 5 a 1; 14 b 0; 15 b 1");
    gives(Verdict.BROKEN, rule, "2 b 1; 5 a 1; 20 b 0; 21 b 1");
    assertThat(judged(rule, "5 a 1; 16 b 1").findings())
        .containsExactly(new Judgement.Found(Kind.BORDERLINE, 5, 15, true, 35));
  }

  @Test
  void theOpeningOfAWindowWithin() {
    String rule = "when rises(a) must b after 10 ns within 20 ns";
    gives(Verdict.UNDECIDED, rule, "5 a 1; 15 b 1; 16 b 0");
    gives(Verdict.UNDECIDED, rule, "5 a 1; 11 b 1; 14 b 0");
    gives(Verdict.BROKEN, rule, "5 a 1; 11 b 1; 13 b 0");
    gives(Verdict.HELD, rule, "5 a 1; 15 b 1; 17 b 0");
    gives(Verdict.HELD, rule, "5 a 1; 15 b 1; 16 b 0; 22 b 1");
    gives(Verdict.HELD, rule, "5 a 1; 8 b 1");
  }

  /** Which of two responses near the opening has to stay is not known. */
  @Test
  void theOpeningOfAWindowAfterWhichItStays() {
    String rule = "when rises(a) must b after 10 ns within 20 ns, and stay so for 10 ns";
    gives(Verdict.UNDECIDED, rule, "5 a 1; 15 b 1; 16 b 0; 18 b 1");
    gives(Verdict.HELD, rule, "5 a 1; 9 b 1; 12 b 0; 18 b 1");
    gives(Verdict.BROKEN, rule, "5 a 1; 15 b 1; 18 b 0; 20 b 1");
    gives(Verdict.UNDECIDED, "when rises(a) must b after 10 ns within 20 ns, and stay so until c",
        "5 a 1; 8 b 1; 14 c 1; 15 c 0; 30 b 0");
  }

  @Test
  void aResponseInItsTriggersImageTookLessThanTheResolution() {
    gives(Verdict.HELD, "when rises(a) must b within 2 ns", "5 a 1; 5 b 1");
    gives(Verdict.UNDECIDED, "when rises(a) must b within 1 ns", "5 a 1; 5 b 1");
    gives(Verdict.HELD, "when rises(a) must b", "5 a 1; 5 b 1");
  }

  @Test
  void aFallNearItsRelease() {
    String rule = "when rises(a) must b within 10 ns, and stay so until c";
    gives(Verdict.UNDECIDED, rule, "5 a 1; 8 b 1; 20 b 0; 21 c 1");
    gives(Verdict.UNDECIDED, rule, "5 a 1; 8 b 1; 20 c 1; 21 b 0");
    gives(Verdict.UNDECIDED, rule, "5 a 1; 8 b 1; 20 c 1; 21 b ?; 22 b 1");
    gives(Verdict.HELD, rule, "5 a 1; 8 b 1; 20 c 1; 22 b 0");
    gives(Verdict.BROKEN, rule, "5 a 1; 8 b 1; 20 b 0; 22 c 1");
    gives(Verdict.HELD, rule, "5 a 1; 8 b 1; 20 b 0; 20 c 1");
    gives(Verdict.HELD, rule, "5 a 1; 8 b 1; 8 c 1; 9 b 0");
    assertThat(judged(rule, "5 a 1; 8 b 1; 20 b 0; 21 c 1").findings())
        .containsExactly(new Judgement.Found(Kind.BORDERLINE, 5, 21, false, 21));
  }

  @Test
  void aFallNearItsReleaseCanBeCancelled() {
    String rule = "when rises(a) unless d must b within 10 ns, and stay so until c";
    gives(Verdict.UNDECIDED, rule, "5 a 1; 8 b 1; 20 b 0; 21 d 1");
    gives(Verdict.NOT_EXERCISED, rule, "5 a 1; 8 b 1; 20 b 0; 20 d 1");
    gives(Verdict.BROKEN, rule, "5 a 1; 8 b 1; 20 b 0; 22 d 1");
    gives(Verdict.UNDECIDED, rule, "5 a 1; 8 b 1; 20 d 1; 21 b 0");
    gives(Verdict.NOT_EXERCISED, rule, "5 a 1; 8 b 1; 20 d 1; 22 b 0");
    gives(Verdict.NOT_EXERCISED, rule, "5 a 1; 8 b 1; 20 c 1; 21 d 1");
  }

  /** That the stay ends with an event is nothing to the order of trigger and demand. */
  @Test
  void anEventThatEndsAStayLeavesTheDemandsOrderOpen() {
    String within = "when falls(a) must not b within 20 ns, and stay so until rises(c)";
    for (String[] each : new String[][] {{within, "0 b 1; 40 a 0; 42 b 0; 45 c 1; 45 b 1"},
        {within, "0 b 1; 38 b 0; 40 a 0; 41 c 1; 41 b 1"},
        {"when falls(a) must not b, and stay so until rises(c)", "0 b 1; 20 b 0; 40 a 0; 40 c 1; 43 b 1"}}) {
      assertThat(judgeRule("resolution 6 ns " + each[0], "0 a 1; 0 c 0; " + each[1], 120).obligations().verdict())
          .as(each[1]).isEqualTo(Verdict.UNDECIDED);
    }
  }

  @Test
  void howLongSomethingHasBeenSoAtATrigger() {
    for (String rule : new String[] {"when rises(a) must b for 10 ns", "when rises(a) must not (not b in last 10 ns)",
        "when rises(a) must time since rises(b) >= 10 ns", "when rises(a) must count(rises(b)) in last 10 ns = 0"}) {
      gives(Verdict.HELD, rule, "5 b 1; 18 a 1");
      gives(Verdict.UNDECIDED, rule, "5 b 1; 16 a 1");
      gives(Verdict.UNDECIDED, rule, "5 b 1; 14 a 1");
      gives(Verdict.BROKEN, rule, "5 b 1; 12 a 1");
    }
  }

  @Test
  void howLongSomethingHasBeenSoAsACondition() {
    String rule = "when rises(a) while b for 10 ns must c";
    gives(Verdict.NOT_EXERCISED, rule, "5 b 1; 12 a 1");
    gives(Verdict.UNDECIDED, rule, "5 b 1; 14 a 1");
    gives(Verdict.BROKEN, rule, "5 b 1; 18 a 1");
    gives(Verdict.UNDECIDED, "when rises(a) and (b for 10 ns) must c", "5 b 1; 14 a 1");
    gives(Verdict.UNDECIDED, "when rises(a) unless b for 10 ns must c", "5 b 1; 14 a 1; 14 c 1");
    gives(Verdict.UNDECIDED, "never b for 10 ns", "5 b 1; 16 b 0");
    gives(Verdict.BROKEN, "never b for 10 ns", "5 b 1; 18 b 0");
    gives(Verdict.HELD, "never b for 10 ns", "5 b 1; 12 b 0");
  }

  /** What makes the trigger by having lasted is timed by it. */
  @Test
  void whatHasLastedIsATriggerAsItIsSeen() {
    gives(Verdict.HELD, "when b for 10 ns must c within 10 ns", "5 b 1; 20 c 1");
    gives(Verdict.HELD, "when (b for 10 ns) and not d must c within 10 ns", "5 b 1; 20 c 1");
  }
}
