package dev.pawl.engine.zone;

import static dev.pawl.engine.proof.TextCase.judge;
import static dev.pawl.engine.proof.TextCase.judgeByEngine;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * {@code starts with n} is said of the first instant, and counts only where nothing can have happened up to when the
 * zone's flags were all seen.
 */
class StartsWithTest {
  private static final String ZONE = "zone z enter rises(a) leave falls(b) holds 1 starts with 1\n";
  private static final Obligations MET = new Obligations(1, 0, 0, 0, 0, 0, 0);
  private static final Obligations UNKNOWN = new Obligations(0, 0, 0, 0, 1, 0, 0);

  private static Obligations occupied(String events) {
    return judge(ZONE + "rule R \"\" basis practice when rises(c) must occupied(z)", events, 60).obligations();
  }

  @ParameterizedTest
  @CsvSource({"'0 a 0; 0 b 1; 0 c 0; 9 c 1', true", "'0 c 0; 1 b 0; 2 a 0; 9 c 1', true",
      "'0 a 1; 0 b 0; 0 c 0; 9 c 1', true", "'0 c 0; 1 b 1; 2 a 1; 9 c 1', false",
      "'0 b 0; 0 c 0; 1 b 1; 2 a 0; 9 c 1', false", "'0 c 0; 1 b 1; 2 a 0; 9 c 1', false"})
  void countsIfTheFlagsAreSeenAsTheyWereAtFirst(String events, boolean counts) {
    assertThat(occupied(events)).isEqualTo(counts ? MET : UNKNOWN);
  }

  @Test
  void countsIfTheFlagsAreSeenWithinFiveSeconds() {
    String rule = ZONE + "rule R \"\" basis practice when rises(c) must occupied(z)";

    assertThat(engine(rule, 5_000_000_000L)).isEqualTo(MET);
    assertThat(engine(rule, 5_000_000_001L)).isEqualTo(UNKNOWN);
  }

  private static Obligations engine(String rule, long seen) {
    String events = "0 c 0; %1$d b 0; %1$d a 0; 7000000000 c 1".formatted(seen);
    return judgeByEngine(rule, events, 8_000_000_000L).obligations();
  }

  /** A train that goes out by an exit which is first logged then is not seen going out; the next one is. */
  @Test
  void aCountThatNobodyKnewIsKnownAgainAfterAPassage() {
    assertThat(occupied("0 c 0; 0 a 0; 20 b 0; 30 a 1; 31 a 0; 35 c 1")).isEqualTo(MET);
  }

  @Test
  void eventsAreUnknownWhereAnUnknownFlagMayHideThem() {
    String never = ZONE + "rule R \"\" basis practice never %s(z)";

    assertThat(judge(never.formatted("enters"), "0 a 0; 0 b 1; 9 a ?; 12 a 0", 60).obligations()).isEqualTo(UNKNOWN);
    assertThat(judge(never.formatted("leaves"), "0 a 0; 0 b 1; 9 a ?; 12 a 0", 60).obligations()).isEqualTo(MET);
    assertThat(judge(never.formatted("miscounts"), "0 a 0; 0 b 1; 9 a ?; 12 a 0", 60).obligations()).isEqualTo(UNKNOWN);
  }

  /** Nobody knows whether the zone was full. */
  @Test
  void anEntryIntoAnUncertainCountMayBeAMiscount() {
    String zone = "zone z enter rises(a) leave falls(b) holds 1\n";

    assertThat(judge(zone + "rule R \"\" basis practice never miscounts(z)", "0 a 0; 0 b 0; 9 a 1", 60).obligations())
        .isEqualTo(UNKNOWN);
  }

  /**
   * Random agreement found it: nothing changes at the moment at which the flag begins, since it is unknown before and
   * after.
   */
  @Test
  void aFlagThatIsStillUnknownWhenItBeginsIsNotAsItWas() {
    String rules = "zone z enter (x > 0 in last 1 ns) then c leave rises(b) holds 2 starts with 1 rule R \"\" basis "
        + "practice always occupied(z)";

    assertThat(judge(rules, "0 a 0; 0 c 0; 1 x -1; 2 b 0", 9).obligations().unknown()).isEqualTo(1);
  }
}
