package dev.pawl.trace.feedback;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Source;
import dev.pawl.trace.sampling.StatedSampling;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * A controller's outputs beside the recorded ones: how long they may differ, and what is unknown after that. The ride
 * is invented.
 */
class OpenLoopTest {

  private static final RuleBook BOOK = RuleLanguage.compile(List.of(new Source("ride.rules", """
      ride "Little Ratchet"
      input  base_flag  : bool
      input  gate       : bool
      input  pump_ready : bool
      input  speed      : m/s
      output run        : bool
      output pump       : bool
      output reference  : m/s
      output lamp       : bool
      zone lift enter rises(base_flag) leave falls(base_flag) holds 1
      rule R-01 "the pump answers"
        basis practice
        severity minor
        when rises(pump)
        must pump_ready within 1 s
      """)), name -> null).book().orElseThrow();
  private static final StatedFeedback LAMP = new StatedFeedback(Map.of(), Set.of(signal("lamp")), Map.of(), Map.of());

  private final List<String> judged = new ArrayList<>();
  private OpenLoop loop = loop(LAMP);

  private OpenLoop loop(StatedFeedback stated) {
    Feedback feedback = new Feedback(BOOK, signal -> BOOK.signals().get(signal).direction() == Signal.Direction.OUTPUT,
        stated, StatedSampling.NONE, output -> 20);
    return new OpenLoop(feedback, new EventSink() {
      @Override
      public void event(long time, int signal, long value, long line) {
        judged.add(time + " " + BOOK.signals().get(signal).name() + " " + (value == UNKNOWN ? "?" : value));
        assertThat(line).isIn(7L, value == UNKNOWN ? -(1L << 54) : 7L);
      }

      @Override
      public void advanceTo(long time) {
        judged.add(time + " and on");
      }
    });
  }

  private static int signal(String name) {
    return BOOK.signals().stream().filter(it -> it.name().equals(name)).findFirst().orElseThrow().index();
  }

  private void event(long time, String signal, long value) {
    loop.event(time, signal(signal), value, 7);
  }

  private void recorded(long time, String signal, long value) {
    loop.recorded(time, signal(signal), value);
  }

  private static long bits(double value) {
    return Double.doubleToRawLongBits(value);
  }

  /** Both are 0 at first, and so is all feedback. */
  private void begin() {
    for (String output : List.of("run", "pump", "lamp")) {
      recorded(0, output, 0);
    }
    recorded(0, "reference", bits(0));
    for (String signal : List.of("base_flag", "gate", "pump_ready", "run", "pump", "lamp")) {
      event(0, signal, 0);
    }
    event(0, "speed", bits(0));
    event(0, "reference", bits(0));
    judged.clear();
  }

  @Test
  void whatComesAsRecordedOrLittleLaterOrSoonerChangesNothing() {
    begin();
    recorded(100, "run", 1);
    event(120, "run", 1);
    event(120, "base_flag", 1);
    event(200, "run", 0);
    event(210, "base_flag", 0);
    recorded(220, "run", 0);
    loop.finish(1000);
    assertThat(judged).containsExactly("120 run 1", "120 base_flag 1", "200 run 0", "210 base_flag 0");
    assertThat(loop.departures()).isEmpty();
  }

  /** What came right after the beginning of the difference is unknown too, although that it lasts came out later. */
  @Test
  void whatFollowsAnOutputIsUnknownRightAfterItWasFirstOtherThanRecorded() {
    begin();
    event(100, "base_flag", 1);
    event(100, "run", 1);
    event(105, "base_flag", 0);
    event(110, "gate", 1);
    event(121, "speed", bits(3));
    event(300, "base_flag", 1);
    loop.finish(1000);
    assertThat(judged).containsExactly("100 base_flag 1", "100 run 1", "101 base_flag ?", "101 speed ?",
        "105 base_flag ?", "110 gate 1", "121 speed ?", "300 base_flag ?");
    assertThat(loop.departures()).containsExactly(new Departure(signal("run"), 100, 0, 1));
  }

  @Test
  void aPulseShorterThanIsAllowedIsNoDifferenceAndALongerOneIs() {
    begin();
    event(100, "run", 1);
    event(120, "run", 0);
    assertThat(loop.departures()).isEmpty();
    event(200, "run", 1);
    event(221, "run", 0);
    assertThat(loop.departures()).containsExactly(new Departure(signal("run"), 200, 0, 1));
  }

  /** It never has the recorded number at the same time, and each number a little later. */
  @Test
  void aNumberThatRunsThroughTheSameValuesALittleLaterIsTheRecordedOne() {
    begin();
    for (int step = 1; step <= 50; step++) {
      recorded(100 + 10 * step, "reference", bits(step));
      event(105 + 10 * step, "reference", bits(step));
    }
    loop.finish(1000);
    assertThat(loop.departures()).isEmpty();

    for (int step = 51; step <= 100; step++) {
      recorded(1000 + 10 * step, "reference", bits(step));
      event(1005 + 10 * step, "reference", bits(Math.max(50, step - 2)));
    }
    assertThat(loop.departures()).containsExactly(new Departure(signal("reference"), 1510, bits(51), bits(50)));
  }

  @Test
  void numbersMayBeOffByAThousandthOrByWhatIsStated() {
    begin();
    recorded(100, "reference", bits(2.7));
    event(100, "reference", bits(2.7027));
    loop.finish(1000);
    assertThat(loop.departures()).isEmpty();

    loop = loop(new StatedFeedback(Map.of(), Set.of(), Map.of(), Map.of(signal("reference"), 0.001)));
    begin();
    recorded(100, "reference", bits(2.7));
    event(100, "reference", bits(2.7027));
    loop.advanceTo(1000);
    assertThat(loop.departures()).hasSize(1);
  }

  @Test
  void aLampMovesNothing() {
    begin();
    event(100, "lamp", 1);
    event(500, "base_flag", 1);
    assertThat(judged).containsExactly("100 lamp 1", "500 base_flag 1");
    assertThat(loop.departures()).isEmpty();
  }

  /** A person's act follows nothing; the answer that a rule demands follows what it is an answer to. */
  @Test
  void anAnswerFollowsTheOutputThatItsRuleIsTriggeredBy() {
    loop = loop(new StatedFeedback(Map.of(signal("speed"), Set.of(signal("run")), signal("base_flag"), Set.of()),
        Set.of(), Map.of(), Map.of()));
    begin();
    event(100, "pump", 1);
    event(500, "gate", 1);
    event(500, "pump_ready", 1);
    event(500, "speed", bits(1));
    event(500, "base_flag", 1);
    assertThat(judged).containsExactly("100 pump 1", "101 pump_ready ?", "500 gate 1", "500 pump_ready ?", "500 speed "
        + bits(1), "500 base_flag 1");
  }

  @Test
  void anOutputWithoutRecordedValuesIsNotCompared() {
    event(0, "run", 0);
    event(0, "base_flag", 0);
    event(100, "run", 1);
    event(500, "base_flag", 1);
    loop.finish(1000);
    assertThat(judged).containsExactly("0 run 0", "0 base_flag 0", "100 run 1", "500 base_flag 1");
    assertThat(loop.isRecorded(signal("run"))).isFalse();
  }

  /** The recorded one had one value until its first row, and the computed one two. */
  @Test
  void anOutputWhoseFirstRowComesAfterAChangeIsOtherThanRecorded() {
    event(0, "run", 0);
    event(0, "base_flag", 0);
    event(100, "run", 1);
    recorded(400, "run", 1);
    event(500, "base_flag", 1);
    loop.finish(1000);
    assertThat(judged).containsExactly("0 run 0", "0 base_flag 0", "100 run 1", "401 base_flag ?", "500 base_flag ?");
    assertThat(loop.departures()).containsExactly(new Departure(signal("run"), 100, EventSink.UNKNOWN, 1));
    assertThat(loop.isRecorded(signal("run"))).isFalse();
  }

  @Test
  void aRecordedOutputThatIsUnknownIsOtherThanTheComputedOne() {
    begin();
    recorded(100, "run", EventSink.UNKNOWN);
    event(500, "base_flag", 1);
    assertThat(loop.departures()).containsExactly(new Departure(signal("run"), 100, EventSink.UNKNOWN, 0));
  }

  /** One is decided while the other is still waited for. */
  @Test
  void twoOutputsThatDifferAtOverlappingTimesAreToldApart() {
    loop = loop(new StatedFeedback(Map.of(signal("speed"), Set.of(signal("run")), signal("base_flag"),
        Set.of(signal("pump"))), Set.of(), Map.of(signal("run"), 50L), Map.of()));
    begin();
    event(100, "run", 1);
    event(110, "pump", 1);
    event(112, "base_flag", 1);
    event(112, "speed", bits(2));
    event(140, "base_flag", 0);
    event(149, "run", 0);
    loop.finish(1000);
    assertThat(judged).containsExactly("100 run 1", "110 pump 1", "111 base_flag ?", "111 pump_ready ?",
        "112 base_flag ?", "112 speed " + bits(2), "140 base_flag ?", "149 run 0");
  }

  @Test
  void aDifferenceThatTheEndCutsShortIsNone() {
    begin();
    event(100, "run", 1);
    event(105, "base_flag", 1);
    loop.finish(120);
    assertThat(judged).containsExactly("100 run 1", "105 base_flag 1");
  }
}
