package dev.pawl.engine.zone;

import static dev.pawl.engine.proof.TextCase.judge;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import org.junit.jupiter.api.Test;

/** What a rule sees of the counting at the two ends of a zone. */
class ZoneCountTest {
  private static final String PAIRS = "zone z enter a then b leave c then d holds 2 starts with 0\n";
  private static final String ALL_OFF = "0 a 0; 0 b 0; 0 c 0; 0 d 0; ";
  private static final String EVERY = "rule R \"\" basis practice when %s must true";

  private static long happenings(String zone, String event, String events) {
    return judge(zone + EVERY.formatted(event), ALL_OFF + events, 30).obligations().met();
  }

  @Test
  void aTrainThatPassesBothPairsOfFlagsEntersAndLeavesOnce() {
    String pass = "1 a 1; 2 b 1; 3 a 0; 4 b 0; 5 c 1; 6 d 1; 7 c 0; 8 d 0";

    assertThat(happenings(PAIRS, "enters(z)", pass)).isEqualTo(1);
    assertThat(happenings(PAIRS, "leaves(z)", pass)).isEqualTo(1);
    assertThat(happenings(PAIRS, "backs_out(z)", pass)).isZero();
    assertThat(happenings(PAIRS, "miscounts(z)", pass)).isZero();
    assertThat(happenings(PAIRS, "occupied(z)", pass)).isEqualTo(1);
  }

  @Test
  void aTrainThatTurnsRoundOverTheEntryBacksOut() {
    String turn = "1 a 1; 2 b 1; 3 b 0; 4 a 0";

    assertThat(happenings(PAIRS, "enters(z)", turn)).isEqualTo(1);
    assertThat(happenings(PAIRS, "backs_out(z)", turn)).isEqualTo(1);
    assertThat(happenings(PAIRS, "leaves(z)", turn)).isZero();
  }

  @Test
  void aTrainThatComesBackOverTheExitEntersAgain() {
    String back = "1 a 1; 2 b 1; 3 a 0; 4 b 0; 5 c 1; 6 d 1; 7 c 0; 8 d 0; 10 d 1; 11 c 1; 12 d 0; 13 c 0";

    assertThat(happenings(PAIRS, "enters(z)", back)).isEqualTo(2);
    assertThat(happenings(PAIRS, "leaves(z)", back)).isEqualTo(1);
    assertThat(happenings(PAIRS, "occupied(z)", back)).isEqualTo(2);
  }

  @Test
  void bothFlagsAtOnceAreAMiscountThatLeavesTheCountOpen() {
    String both = "1 a 1; 1 b 1; 5 a 0; 6 b 0";

    assertThat(happenings(PAIRS, "miscounts(z)", both)).isEqualTo(1);
    assertThat(judge(PAIRS + EVERY.formatted("occupied(z)").replace("must true", "must false"), ALL_OFF + both, 30)
        .obligations())
        .isEqualTo(new Obligations(0, 0, 0, 0, 0, 0, 1));
  }

  /**
   * A flag that is true from just after a time on: the exit sees a train go out, and come back the moment after the
   * entry saw one come in.
   */
  @Test
  void twoThatEnterAtMomentsNextToEachOtherAreOneHappeningOfEnters() {
    String zone = "zone z enter rises(a) leave d then not (rises(b) in last 2 ns) holds 2 starts with 1\n";

    assertThat(happenings(zone, "enters(z)", "1 b 1; 3 a 1")).isEqualTo(1);
    assertThat(happenings(zone, "trains(z) = 2", "1 b 1; 3 a 1")).isEqualTo(1);
    assertThat(happenings(zone, "enters(z)", "1 b 1; 5 a 1")).isEqualTo(2);
  }
}
