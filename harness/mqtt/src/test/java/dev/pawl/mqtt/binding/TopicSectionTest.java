package dev.pawl.mqtt.binding;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.trace.bindings.BindingsFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TopicSectionTest {

  @ParameterizedTest
  @CsvSource(delimiter = '|', textBlock = """
      near_flag                                    | 2:3  | an entry of 'topics' says on which topic a signal is
      near_flagg on "a"                            | 2:3  | the rules declare no signal 'near_flagg'
      near_flag on "a/#"                           | 2:16 | this topic has + or # in it, which no message's topic has
      near_flag on "a" json                        | 2:20 | 'json' needs a pointer to the value after it
      near_flag on "a" json "x"                    | 2:25 | 'x' is no JSON pointer (RFC 6901)
      near_flag on "a" json "/x" time "/t"         | 2:30 | 'time' needs a pointer and a unit after it
      near_flag on "a" json "/x" time "/t" weeks   | 2:40 | 'weeks' is no unit of time
      near_flag on "a" json "/x" trace time "/t"   | 2:36 | 'time' needs a pointer and a unit after it
      near_flag on sparkplug "a/b"                 | 2:3  | 'sparkplug' needs a node and a metric after it
      near_flag on sparkplug "a" metric "m"        | 2:26 | 'a' is no Sparkplug node
      near_flag on "a" times 2                     | 2:20 | only a number can be scaled
      """)
  void wrongEntriesAreSaidWhereTheyAre(String entry, String place, String message) {
    TopicBindings.Resolved resolved =
        TopicBindings.resolve(BindingsFile.parse(new Source("t", "topics\n  " + entry + "\n")), Ride.BOOK);
    assertThat(resolved.diagnostics()).singleElement().satisfies(d -> {
      assertThat(d.message()).isEqualTo(message);
      assertThat(d.position().toString()).isEqualTo("t:" + place);
    });
  }

  @Test
  void topicsThatNoBrokerTakesAreRefused() {
    assertThat(TopicName.problem("ride/lift \u00e9")).isEmpty();
    assertThat(TopicName.problem("")).hasValue("a topic is not empty");
    assertThat(TopicName.problem("a/\u0007/b")).hasValueSatisfying(words -> assertThat(words)
        .startsWith("this topic has a character in it that cannot be seen"));
    assertThat(TopicName.problem("a\u0000")).isPresent();
    assertThat(TopicName.problem("\u00e9".repeat(35_000)))
        .hasValue("this topic has 70000 bytes; a topic has at most 65535");
    TopicBindings.Resolved resolved = TopicBindings.resolve(BindingsFile.parse(new Source("t",
        "topics\n  near_flag on sparkplug \"a/b\u0007\" metric \"m\"\n")), Ride.BOOK);
    assertThat(resolved.diagnostics()).singleElement().satisfies(d -> assertThat(d.message())
        .startsWith("this topic has a character"));
  }

  @Test
  void twoSignalsInOnePlaceAreRefused() {
    TopicBindings.Resolved resolved = TopicBindings.resolve(BindingsFile.parse(new Source("t",
        "topics\n  near_flag on \"a\"\n  lift_run on \"a\"\n  near_flag on \"b\"\n")), Ride.BOOK);
    assertThat(resolved.diagnostics()).extracting(d -> d.message())
        .containsExactly("topic 'a' is bound already, in line 2", "signal 'near_flag' is bound already, in line 2");
  }
}
