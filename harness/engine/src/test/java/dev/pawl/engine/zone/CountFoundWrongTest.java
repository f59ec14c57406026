package dev.pawl.engine.zone;

import static dev.pawl.engine.proof.TextCase.judge;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Tried;
import dev.pawl.engine.Verdict;
import dev.pawl.engine.reference.Judgement;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

/**
 * What rests on a count that is found wrong later shows nothing. Trains enter by {@code a}, leave by {@code b};
 * {@code c} releases one into the zone.
 */
class CountFoundWrongTest {
  private static final String ZONE = "zone z enter rises(a) leave rises(b) holds 1 starts with 0 ";
  private static final String DISPATCH = ZONE + "rule R \"\" basis practice when rises(c) must not occupied(z)";
  private static final String START = "0 a 0; 0 b 0; 0 c 0; 0 d 0; ";

  private static Judgement.OfRule judged(String rules, String events) {
    return judge(rules, START + events, 100);
  }

  /** One train in, out: {@code 10 a, 20 b}, released at 5. */
  private static final String FIRST = "5 c 1; 6 c 0; 10 a 1; 11 a 0; 20 b 1; 21 b 0; ";

  @Test
  void aReleaseBehindATrainWhoseEntryWasMissedIsUndecided() {
    // A train comes in unseen at about 25. The next is released at 30, enters at 35, the first leaves at 40, the second
    // at 50.
    Judgement.OfRule rule = judged(DISPATCH, FIRST + "30 c 1; 31 c 0; 35 a 1; 36 a 0; 40 b 1; 41 b 0; 50 b 1; 51 b 0");

    assertThat(rule.obligations()).isEqualTo(new Obligations(1, 0, 0, 0, 0, 0, 0, 1, 0));
    assertThat(rule.obligations().verdict(rule.tried())).isEqualTo(Verdict.UNDECIDED);
  }

  @Test
  void whatWasMissedStaysMissed() {
    Judgement.OfRule rule = judged(DISPATCH, FIRST + "35 a 1; 36 a 0; 37 c 1; 38 c 0; 40 b 1; 41 b 0; 50 b 1; 51 b 0");

    assertThat(rule.obligations()).isEqualTo(new Obligations(1, 1, 0, 0, 0, 0, 0));
  }

  @Test
  void aCountTooHighWasRightWhileTheZoneWasEmpty() {
    // The train that came in at 35 leaves unseen; the next enters at 60.
    Judgement.OfRule rule = judged(ZONE + "rule R \"\" basis practice when rises(c) must occupied(z) or d",
        FIRST.replace("5 c 1; 6 c 0; ", "") + "25 d 1; 30 c 1; 31 c 0; 35 a 1; 36 a 0; 50 c 1; 51 c 0; 60 a 1");

    assertThat(rule.obligations()).isEqualTo(new Obligations(1, 0, 0, 0, 0, 0, 0, 1, 0));
  }

  @Test
  void aTriggerThatRestsOnItMayHaveHappenedUnseen() {
    Judgement.OfRule rule = judged(ZONE + "rule R \"\" basis practice when enters(z) must d within 4 ns",
        "5 d 1; 10 b 1");

    assertThat(rule.obligations()).isEqualTo(new Obligations(0, 0, 0, 0, 0, 0, 0, 1, 0));
  }

  @Test
  void whatIsStillToBeMetWhenTheCountIsFoundWrongIsInDoubtToo() {
    Judgement.OfRule rule =
        judged(ZONE + "rule R \"\" basis practice when rises(c) must not occupied(z) and d within 9 ns",
        FIRST + "30 c 1; 32 b 1; 35 d 1");

    assertThat(rule.obligations().miscounted()).isEqualTo(1);
    assertThat(rule.obligations().met()).isZero();
  }

  @Test
  void aTrialOnAWrongCountTriesNothing() {
    String rules = ZONE + "rule R \"\" basis practice when rises(c) must not occupied(z) tried by d";

    assertThat(judged(rules, "10 a 1; 11 a 0; 15 d 1; 16 d 0; 20 b 1").tried())
        .containsExactly(new Tried(1, OptionalLong.of(15)));
    assertThat(judged(rules, "10 a 1; 11 a 0; 15 d 1; 16 d 0; 20 a 1").tried())
        .containsExactly(new Tried(0, OptionalLong.empty()));
  }

  @Test
  void whatTheFindingOfOneZoneTookBackIsNotCountedOnAgainForAnother() {
    String two = ZONE + "zone y enter rises(x < -1) leave rises(x > 2) holds 1 starts with 0 "
        + "rule R \"\" basis practice when rises(c) must not occupied(z) or not occupied(y)";
    Judgement.OfRule rule = judged(two,
        "0 x 0; 4 c 1; 5 c 0; 6 c 1; 7 c 0; 10 a 1; 11 a 0; 15 b 1; 16 b 0; 18 a 1; 19 a 0; 20 b 1; 21 b 0; "
        + "26 x 3; 30 c 1; 31 c 0; 32 c 1; 33 c 0; 40 b 1");

    assertThat(rule.obligations()).isEqualTo(new Obligations(0, 0, 0, 0, 0, 0, 0, 4, 0));
  }

  /**
   * The exit flag bounces at 20, before the train leaves at 30: the zone has been empty for 20 ns at 50, not at 40. The
   * drive stops in time for that.
   */
  @Test
  void whatLooksBackDoesNotTrustACountThatWasFoundWrong() {
    String bounced = "0 d 1; 10 a 1; 11 a 0; 20 b 1; 21 b 0; 30 b 1; 31 b 0; ";
    String idle = ZONE + "rule R \"\" basis practice when not occupied(z) for 20 ns must not d within 5 ns";

    Obligations obligations = judged(idle, bounced + "52 d 0").obligations();
    assertThat(obligations.missed()).isZero();
    assertThat(obligations.verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(judged(ZONE + "rule R \"\" basis practice when rises(c) must not (occupied(z) in last 15 ns)",
        bounced + "40 c 1").obligations()).isEqualTo(new Obligations(0, 0, 0, 0, 1, 0, 0, 0, 0));
    assertThat(judged(ZONE + "rule R \"\" basis practice when rises(c) must max(trains(z)) over 15 ns = 0",
        bounced + "40 c 1; 41 c 0; 60 c 1").obligations()).isEqualTo(new Obligations(1, 0, 0, 0, 1, 0, 0, 0, 0));
  }

  @Test
  void whatNoLaterPassageConfirmsIsCounted() {
    assertThat(judged(DISPATCH, FIRST).unconfirmed()).isEqualTo(1);
    String more = FIRST
        + "30 c 1; 31 c 0; 35 a 1; 36 a 0; 40 b 1; 41 b 0; 50 c 1; 51 c 0; 55 a 1; 56 a 0; 60 b 1; 61 b 0";
    assertThat(judged(DISPATCH, more).obligations().met()).isEqualTo(3);
    assertThat(judged(DISPATCH, more).unconfirmed()).isEqualTo(1);
  }
}
