package dev.pawl.mqtt.live;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.trace.bindings.BindingsFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Verdicts reach nobody who would take them for a signal, a command, or a bench's marker. */
class VerdictTopicsTest {

  private static final TopicBindings BOUND = TopicBindings.resolve(BindingsFile.parse(new Source("t", """
      topics
        near_flag   on "park/lift/flag"
        lift_run    on "park/lift" json "/run"
        lift_speed  on sparkplug "hill/plc/drive" metric "Speed"
      """)), Ride.BOOK).bindings();

  @ParameterizedTest
  @ValueSource(strings = {"park", "park/lift", "park/lift/flag", "park/lift/flag/below", "park/lift/elsewhere"})
  void aPrefixAboveBelowOrAtABoundTopicIsRefusedWithItsName(String prefix) {
    assertThatThrownBy(() -> VerdictTopics.under(prefix, BOUND)).isInstanceOf(ConnectionTrouble.class)
        .hasMessageStartingWith("verdicts cannot go under '" + prefix + "': it lies above, below or at park/lift");
  }

  @ParameterizedTest
  @ValueSource(strings = {"spBv1.0", "spBv1.0/hill", "spBv1.0/hill/NCMD/plc", "spBv1.0/other/NCMD/node", "STATE",
      "STATE/host", "pawl", "pawl/bench", "pawl/bench/x", "pawl/step", "pawl/step/x", "pawl/done", "pawl/bench-side",
      "bench", "bench/verdicts"})
  void aPrefixWhereOthersCommandIsRefused(String prefix) {
    assertThatThrownBy(() -> VerdictTopics.under(prefix, BOUND)).isInstanceOf(ConnectionTrouble.class)
        .hasMessageStartingWith("verdicts cannot go under '" + prefix + "': ");
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "$SYS", "$SYS/verdicts", "$share/g/verdicts", "+", "verdicts/+", "verdicts/#", "#",
      "verdicts/", "/", "a\nb", "a\u0000b", "a\u0085b", "a\ud800b"})
  void whatIsNoBeginningOfATopicIsRefused(String prefix) {
    assertThatThrownBy(() -> VerdictTopics.under(prefix, BOUND)).isInstanceOf(ConnectionTrouble.class)
        .hasMessageContaining("is no beginning of a topic for verdicts");
  }

  @Test
  void aPrefixThatIsTooLongIsRefusedInAShortSentence() {
    assertThatThrownBy(() -> VerdictTopics.under("x".repeat(70_000), BOUND)).hasMessageEndingWith("at most 1000 bytes")
        .satisfies(e -> assertThat(e.getMessage()).hasSizeLessThan(300));
  }

  @ParameterizedTest
  @ValueSource(strings = {"verdicts", "park2", "park/lifts", "parkland/lift", "pawl/verdicts", "park/verdicts",
      "site/a/verdicts"})
  void anyOtherPrefixIsTakenAndOnlyTopicsBelowItArePermitted(String prefix) {
    VerdictTopics topics = VerdictTopics.under(prefix, BOUND);
    assertThat(topics.refusal(topics.of("STOP-01"))).isEmpty();
    assertThat(topics.refusal(prefix)).isPresent();
    assertThat(topics.refusal(prefix + "x/STOP-01")).isPresent();
    assertThat(topics.refusal("park/lift/flag")).isPresent();
  }
}
