package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Sampling;
import dev.pawl.engine.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.IntPredicate;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * What came first near a trigger. A ride whose truth is known, a rising at 40 ns and b turning some time before or
 * after, is looked at every 10 ns, give or take 3 ns, each signal in its own phase: no verdict may say the opposite of
 * the truth, and where the two lie far apart it must say the truth.
 */
class OrderTest {
  private static final int LONGEST = 13;
  private static final int TRIGGER = 40;
  private static final int NEAR = 2 * LONGEST;
  private static final Sampling LOOKED_AT = Sampling.of(LONGEST, LONGEST, LONGEST);
  private static final Sampling OF_TRIGGER = Sampling.of(LONGEST, 0, 0);
  private static final Sampling OF_DEMAND = Sampling.of(0, LONGEST, 0);

  /**
   * A rule over a ride in which b rises, or falls, and how it truly comes out where b has turned before the trigger,
   * and where after it.
   */
  private record Case(String rule, boolean rises, Verdict before, Verdict after) {}

  private static final List<Case> CASES = List.of(
      new Case("when rises(a) must b", true, Verdict.HELD, Verdict.BROKEN),
      new Case("when rises(a) must b", false, Verdict.BROKEN, Verdict.HELD),
      new Case("when rises(a) must not b", true, Verdict.BROKEN, Verdict.HELD),
      new Case("when rises(a) must b, and stay so for 100 ns", true, Verdict.HELD, Verdict.BROKEN),
      new Case("when rises(a) must b within 5 ns", false, Verdict.BROKEN, Verdict.HELD),
      new Case("when rises(a) must not b throughout 3 ns", false, Verdict.HELD, Verdict.BROKEN),
      new Case("when rises(a) must b before c", false, Verdict.BROKEN, Verdict.HELD),
      new Case("when rises(a) while b must c within 20 ns", true, Verdict.BROKEN, Verdict.NOT_EXERCISED),
      new Case("when rises(a) while b must c", false, Verdict.NOT_EXERCISED, Verdict.BROKEN),
      new Case("when rises(a) and b must c", true, Verdict.BROKEN, Verdict.NOT_EXERCISED),
      new Case("when rises(a) unless b must c", true, Verdict.NOT_EXERCISED, Verdict.BROKEN),
      new Case("when rises(a) unless b must c", false, Verdict.BROKEN, Verdict.NOT_EXERCISED));
  private static final Case STATE = new Case("never a and not b", true, Verdict.HELD, Verdict.BROKEN);

  private static Verdict judge(Case tried, Sampling sampling, int lag, int seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Map<Integer, List<String>> rows = new TreeMap<>();
    look(random, sampling.period(0), "a", time -> time >= TRIGGER, rows);
    look(random, sampling.period(1), "b", time -> time >= TRIGGER + lag == tried.rises, rows);
    look(random, sampling.period(2), "c", time -> time >= 150, rows);
    String events = rows.values().stream().flatMap(List::stream).collect(Collectors.joining("; "));
    return judgeRule(tried.rule, events, 200, sampling).obligations().verdict();
  }

  /** Adds the rows of a signal: each look at it, or each change of one that is logged when it changes. */
  private static void look(SplittableRandom random, long period, String name, IntPredicate truth,
      Map<Integer, List<String>> rows) {
    boolean before = !truth.test(0);
    int next = 0;
    for (int time = 0; time < 200; time++) {
      if (period == 0 ? truth.test(time) != before : time == next) {
        rows.computeIfAbsent(time, at -> new ArrayList<>()).add(time + " " + name + " " + (truth.test(time) ? 1 : 0));
        next = time == 0 ? random.nextInt(1, LONGEST) : time + random.nextInt(7, LONGEST + 1);
      }
      before = truth.test(time);
    }
  }

  @Test
  void noVerdictContradictsTheTruth() {
    for (Case tried : CASES) {
      for (Sampling sampling : new Sampling[] {LOOKED_AT, OF_TRIGGER, OF_DEMAND}) {
        for (int lag = -NEAR - 1; lag <= NEAR; lag++) {
          Verdict truth = lag <= 0 ? tried.before : tried.after;
          for (int seed = 0; seed < 8; seed++) {
            String place = tried + " turning after " + lag + " ns, seed " + seed + ", looked at " + sampling.period(0)
                + ", " + sampling.period(1);
            Verdict verdict = judge(tried, sampling, lag, seed);
            assertThat(verdict).as(place).isIn(truth, Verdict.UNDECIDED, Verdict.NOT_EXERCISED);
            assertThat(truth != Verdict.BROKEN || verdict != Verdict.NOT_EXERCISED).as(place).isTrue();
            assertThat(Math.abs(lag) < NEAR || verdict != Verdict.UNDECIDED).as(place + ": " + verdict).isTrue();
          }
        }
      }
    }
  }

  /** What lasted for less than a period may have passed unseen, but is never made up. */
  @Test
  void aStateThatNeverWasIsNotBroken() {
    for (int seed = 0; seed < 8; seed++) {
      for (int lag = -NEAR; lag <= 0; lag++) {
        assertThat(judge(STATE, LOOKED_AT, lag, seed)).isNotEqualTo(Verdict.BROKEN);
      }
      assertThat(judge(STATE, LOOKED_AT, -NEAR, seed)).isEqualTo(Verdict.HELD);
      assertThat(judge(STATE, LOOKED_AT, NEAR, seed)).isEqualTo(Verdict.BROKEN);
    }
  }

  /**
   * One signal goes as another comes, near a trigger: each looked at in its own phase, so that the two may seem to be
   * there at once that never were, or the other way.
   */
  @Test
  void aHandoverOfTwoSignalsIsHeldOrBrokenOnlyWhereItIsSo() {
    for (String rule : new String[] {"when rises(c) must a or b", "when rises(c) must not (a and b)",
        "when rises(c) must a or b, and stay so for 5 ns", "when rises(c) must not (a and b) throughout 5 ns",
        "when rises(c) and (a or b) must d within 60 ns", "never a and b", "always a or b"}) {
      for (int falls = TRIGGER - NEAR - 2; falls <= TRIGGER + NEAR + 2; falls += 5) {
        for (int rises = TRIGGER - NEAR - 2; rises <= TRIGGER + NEAR + 2; rises += 5) {
          Verdict truth = truthOfHandover(rule, falls, rises);
          for (int seed = 0; seed < 4; seed++) {
            String place = rule + ", a falling at " + falls + ", b rising at " + rises + ", seed " + seed;
            Verdict verdict = judgeHandover(rule, falls, rises, seed);
            assertThat(verdict).as(place).isIn(truth, Verdict.UNDECIDED);
            boolean far = Math.abs(falls - rises) >= NEAR && Math.abs(falls - TRIGGER) >= NEAR
                && Math.abs(rises - TRIGGER) >= NEAR;
            assertThat(!far || verdict != Verdict.UNDECIDED).as(place).isTrue();
          }
        }
      }
    }
  }

  private static Verdict truthOfHandover(String rule, int falls, int rises) {
    boolean eitherIsAsked = rule.contains("a or b");
    int from = eitherIsAsked ? falls : rises;
    int to = eitherIsAsked ? rises : falls;
    int last = TRIGGER + (rule.contains("5 ns") ? 5 : 0);
    boolean isSo = rule.startsWith("when") ? from < to && from <= last && to > TRIGGER : from < to;
    if (rule.contains("within")) {
      return isSo ? Verdict.NOT_EXERCISED : Verdict.BROKEN;
    }
    return isSo ? Verdict.BROKEN : Verdict.HELD;
  }

  private static Verdict judgeHandover(String rule, int falls, int rises, int seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Map<Integer, List<String>> rows = new TreeMap<>();
    look(random, LONGEST, "a", time -> time < falls, rows);
    look(random, LONGEST, "b", time -> time >= rises, rows);
    look(random, LONGEST, "c", time -> time >= TRIGGER, rows);
    look(random, LONGEST, "d", time -> false, rows);
    String events = rows.values().stream().flatMap(List::stream).collect(Collectors.joining("; "));
    return judgeRule(rule, events, 200, Sampling.of(LONGEST, LONGEST, LONGEST, LONGEST)).obligations().verdict();
  }

  @Test
  void logsOfChangesWithAResolutionAreAsNearOrFar() {
    for (String rule : new String[] {"when rises(a) must b", "when rises(a) must b, and stay so for 50 ns",
        "when rises(a) and b must c", "when rises(a) unless not b must c"}) {
      String text = "resolution 5 ns " + rule;
      assertThat(judgeRule(text, "0 a 0; 0 b 0; 0 c 0; 45 b 1; 50 a 1", 200).obligations().verdict()).as(rule)
          .isNotEqualTo(Verdict.UNDECIDED);
      assertThat(judgeRule(text, "0 a 0; 0 b 0; 0 c 0; 46 b 1; 50 a 1", 200).obligations().verdict()).as(rule)
          .isEqualTo(Verdict.UNDECIDED);
    }
    String rule = "resolution 5 ns when rises(a) must b";
    assertThat(judgeRule(rule, "0 a 0; 0 b 0; 50 a 1; 50 b 1", 200).obligations().verdict()).isEqualTo(Verdict.HELD);
    assertThat(judgeRule(rule, "0 a 0; 0 b 1; 50 a 1; 54 b 0", 200).obligations().verdict())
        .isEqualTo(Verdict.UNDECIDED);
    assertThat(judgeRule(rule, "0 a 0; 0 b 1; 50 a 1; 55 b 0", 200).obligations().verdict()).isEqualTo(Verdict.HELD);
  }

  @Test
  void oneSignalKeepsItsOrder() {
    assertThat(judgeRule("resolution 5 ns when rises(x > 1) must x < 3", "0 x 0; 50 x 2; 52 x 4", 200).obligations()
        .verdict()).isEqualTo(Verdict.HELD);
  }

  @Test
  void aTrialNeedsWhatMadeItOneToHaveComeBeforeAndTimeToBeAnswered() {
    String rule = "when rises(d) must b tried by rises(a) given c";
    assertThat(judgeRule(rule, "0 a 0; 0 b 0; 0 c 0; 0 d 0; 30 c 1; 50 a 1", 200, Sampling.of(10, 0, 10)).tried().get(0)
        .times()).isEqualTo(1);
    assertThat(judgeRule(rule, "0 a 0; 0 b 0; 0 c 0; 0 d 0; 45 c 1; 50 a 1", 200, Sampling.of(10, 0, 10)).tried().get(0)
        .times()).isZero();
    assertThat(judgeRule(rule, "0 a 0; 0 b 0; 0 c 1; 0 d 0; 195 a 1", 200, Sampling.of(10, 0, 10)).tried().get(0)
        .times()).isZero();
    assertThat(judgeRule(rule, "0 a 0; 0 b 0; 0 c 1; 0 d 0; 195 a 1", 200, Sampling.NONE).tried().get(0).times())
        .isEqualTo(1);
  }
}
