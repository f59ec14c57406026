package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Sampling;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a trigger is worth whose state lasted for a time that is near to what would make it none, or one. */
class BriefTriggerTest {
  private static final Obligations NOTHING = new Obligations(0, 0, 0, 0, 0, 0, 0);
  private static final Obligations MISSED = new Obligations(0, 1, 0, 0, 0, 0, 0);
  private static final Obligations BORDERLINE = new Obligations(0, 0, 0, 1, 0, 0, 0);
  private static final Obligations UNKNOWN_TRIGGER = new Obligations(0, 0, 0, 0, 0, 0, 1);

  private static void gives(Outcome outcome, Obligations obligations) {
    assertThat(obligations).isEqualTo(switch (outcome) {
      case NOTHING -> NOTHING;
      case MISSED -> MISSED;
      case BORDERLINE -> BORDERLINE;
      case UNKNOWN_TRIGGER -> UNKNOWN_TRIGGER;
    });
  }

  private enum Outcome { NOTHING, MISSED, BORDERLINE, UNKNOWN_TRIGGER }

  /** Looked at every 10 ns, what is seen for 50 ns may have been so for anything between 40 and 60 ns. */
  @ParameterizedTest
  @CsvSource({"50, NOTHING", "60, UNKNOWN_TRIGGER", "70, BORDERLINE", "80, MISSED"})
  void aDurationIsNearWithinThePeriod(int end, Outcome outcome) {
    StringBuilder looks = new StringBuilder("0 a 0; 0 c 0");
    for (int at = 10; at <= 200; at += 10) {
      looks.append("; ").append(at).append(" a ").append(at >= 20 && at < end ? 1 : 0).append("; ").append(at)
          .append(" c 0");
    }
    Sampling sampling = Sampling.of(10, 10, 10, 10);
    gives(outcome, judgeRule("when a for 45 ns must c", looks.toString(), 200, sampling).obligations());
    gives(outcome, judgeRule("when not (not a in last 45 ns) must c", looks.toString(), 200, sampling).obligations());
    gives(outcome, judgeRule("when rises(a for 45 ns) must c within 20 ns", looks.toString(), 200, sampling)
        .obligations());
  }

  @ParameterizedTest
  @CsvSource({"38, NOTHING", "40, UNKNOWN_TRIGGER", "45, UNKNOWN_TRIGGER", "46, BORDERLINE", "50, BORDERLINE",
      "51, MISSED"})
  void andWithinTheResolution(int lasted, Outcome outcome) {
    String log = "0 a 0; 0 c 0; 20 a 1; " + (20 + lasted) + " a 0";
    gives(outcome, judgeRule("resolution 6 ns when a for 45 ns must c", log, 200).obligations());
    gives(outcome, judgeRule("resolution 6 ns when falls(not (a for 45 ns)) must c throughout 5 ns", log, 200)
        .obligations());
  }

  /** The one may have gone before the other came. */
  @ParameterizedTest
  @CsvSource({"1, BORDERLINE", "5, BORDERLINE", "6, MISSED"})
  void twoSignalsThatAreTrueTogetherForLessThanTheResolutionMayNotHaveBeen(int together, Outcome outcome) {
    String log = "0 a 0; 0 b 0; 0 c 0; 0 d 0; 20 a 1; 50 b 1; " + (50 + together) + " a 0";
    gives(outcome, judgeRule("resolution 6 ns when a and b must c", log, 200).obligations());
    gives(outcome, judgeRule("resolution 6 ns when rises(a and b) must c within 30 ns", log, 200).obligations());
    gives(outcome, judgeRule("resolution 6 ns when rises(a and b) must c before d", log + "; 150 d 1", 200)
        .obligations());
  }

  /** What was true for so short a time only as the trace ends may go right after it. */
  @ParameterizedTest
  @CsvSource({"55, BORDERLINE", "56, MISSED"})
  void andTheTraceHasToShowThatItStays(int end, Outcome outcome) {
    gives(outcome, judgeRule("resolution 6 ns when a and b must c", "0 a 0; 0 b 0; 0 c 0; 20 a 1; 50 b 1", end)
        .obligations());
  }
}
