package dev.pawl.trace.json;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

/**
 * The short way through a JSON row, against the library's parser on the same row with an escape in it that forces the
 * long way.
 */
class OrdinaryRowTest {

  private static final TraceOptions LENIENT = TraceOptions.of(Books.LIFT).withLenient(true).withListed(1000);
  private static final String FIRST = "{\"time_ms\": 0, \"signal\": \"estop_chain\", \"value\": 1}\n";
  private static final String SPARE = "{}\":,. -0e\\tf1\u00e9\t";

  @Property(tries = 3000)
  void bothWaysAgreeOnRowsAndOnAlmostRows(@ForAll long seed) {
    BothWays.agree(FIRST, OrdinaryRowTest::row, SPARE, seed, LENIENT, "signal", "time_ms");
  }

  private static String row(Random random, int time) {
    String space = random.nextBoolean() ? " " : "";
    String[] values = {"0", "1", "true", "false", "null", "\"1\"", "2.5", "-0", "01", "1e3", ".5", "5.", "-", "tru",
        "7"};
    String value = values[random.nextInt(values.length)];
    String signal = random.nextInt(3) == 0 ? "lift_speed" : random.nextInt(8) == 0 ? "pump" : "lift_run";
    String quality = random.nextInt(3) == 0 ? ",\"quality\":" + (random.nextBoolean() ? "\"bad\"" : "192") : "";
    String head = random.nextBoolean() ? "\"time_ms\":" + space + time + "," : "\"time_ms\":\"" + time + "\"," + space;
    return "{" + head + "\"signal\":" + space + "\"" + signal + "\",\"value\":" + space + value + quality + space + "}";
  }

  @Test
  void takesTheKeysInAnyOrder() {
    Recording recording = Recording.of(FIRST + "{\"value\":0,\"time_ms\":7,\"signal\":\"lift_run\"}\r\n", LENIENT);
    assertThat(recording.events()).contains(new Recording.Event(7_000_000, 0, 0));
  }
}
