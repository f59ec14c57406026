package dev.pawl.trace.json;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.BindingsFile;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rows whose keys are the signals: those that are taken without a parser and those that need one give the same. */
class LeafRowTest {

  private static final String SITE = """
      columns
        time "/ts"
        quality "/meta/q"
      signals
        lift_run from run
        estop_chain from "/chain"
        lift_speed from "/drive/speed"
        motor_heat from "/drive/heat/1"
      values
        unknown NaN
      ignore
        host, "/meta/*", "/drive/heat/*"
      time
        unit ms
      """;
  private static final TraceOptions LENIENT = TraceOptions.of(Books.LIFT).withLenient(true).withListed(1000)
      .withBindings(Bindings.resolve(BindingsFile.parse(new Source("site.bindings", SITE)), Books.LIFT, Set.of())
          .bindings());
  private static final String FIRST = "{\"ts\": 0, \"run\": 1}\n";
  private static final String SPARE = "{}[]\":,. -0e\\tf1\u00e9\t";

  @Property(tries = 4000)
  void bothWaysAgreeOnRowsAndOnAlmostRows(@ForAll long seed) {
    BothWays.agree(FIRST, LeafRowTest::row, SPARE, seed, LENIENT, "ts");
  }

  private static String row(Random random, int time) {
    String space = random.nextBoolean() ? " " : "";
    String[] bools = {"0", "1", "true", "false", "null", "\"1\"", "01", "7"};
    String[] numbers = {"2.5", "-0", "1e3", "1E-2", ".5", "5.", "null", "\"NaN\"", "NaN", "\"2\"", "true"};
    String bool = bools[random.nextInt(bools.length)];
    String number = numbers[random.nextInt(numbers.length)];
    String[] members = {"\"run\":" + space + bool, "\"chain\":" + bool, "\"drive\":{" + space + "\"speed\":" + number
        + "}", "\"drive\":{\"heat\":[1,\"x\",2.5],\"speed\":1}", "\"drive\":{\"heat\":[" + space + "null," + number
        + "]}", "\"host\":\"a\"", "\"meta\":{\"q\":\"good\"}", "\"meta\":{\"q\":64,\"n\":{}}", "\"mode\":\"off\"",
        "\"pump\":1", "\"signal\":\"run\"", "\"values\":{\"run\":" + bool + ",\"/drive/speed\":" + number + "}",
        "\"end\":true", "\"axes\":[]", "\"drive\":[]", "\"values\":{}", "\"values\":{\"host\":1}",
        "\"value\":{}", "\"ts\":[]"};
    StringBuilder row = new StringBuilder("{\"ts\":" + space + (random.nextBoolean() ? time : "\"" + time + "\""));
    for (int i = random.nextInt(4); i >= 0; i--) {
      row.append(',').append(space).append(members[random.nextInt(members.length)]);
    }
    return row + space + "}";
  }

  /** What is left out beside values is nothing that the row states; otherwise it is, and its time counts. */
  @ParameterizedTest(name = "{0}")
  @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
      {"ts": 2, "host": "a", "values": {"run": 0, "chain": 1}} | OUT_OF_ORDER 2
      {"ts": 2, "values": {"run": 0, "host": 1}, "host": "a"}  | OUT_OF_ORDER 2
      {"ts": 2, "host": "a", "run": 0}                         | OUT_OF_ORDER 2
      {"ts": 2, "host": "a"}                                   | OUT_OF_ORDER 1
      {"ts": 2, "host": "a", "values": {}}                     | MALFORMED 1
      {"ts": 9, "host": "a", "values": {"run": 0}}             |
      {"ts": 9, "run": 0, "value": {}}                         | MALFORMED 1
      {"ts": 9, "run": 0, "signal": []}                        | MALFORMED 1
      """)
  void countsWhatIsLeftOutAsTheParserDoes(String row, String problems) {
    for (String key : List.of("\"ts\"", "\"t\\u0073\"")) {
      Recording recording = Recording.of(FIRST + "{\"ts\": 5, \"run\": 1}\n" + row.replace("\"ts\"", key) + "\n",
          LENIENT);
      assertThat(recording.summary().problems()).as(key)
          .extracting(problem -> problem.kind() + " " + problem.count())
          .containsExactlyElementsOf(problems == null ? List.of() : List.of(problems));
    }
  }

  @Test
  void takesNoRowWithTwoTimes() {
    Bindings ignoring = Bindings.resolve(BindingsFile.parse(new Source("site.bindings", "ignore\n  \"time_*\"\n")),
        Books.LIFT, Set.of()).bindings();
    Recording recording = Recording.of("{\"time_ms\": 0, \"lift_run\": 1}\n"
        + "{\"time_ms\": 1, \"time_us\": 1000, \"lift_run\": 0}\n",
        TraceOptions.of(Books.LIFT).withLenient(true).withListed(10).withBindings(ignoring));
    assertThat(recording.summary().diagnostics()).singleElement().asString()
        .contains("the time is stated twice, as 'time_ms' and 'time_us'");
  }

  @Test
  void takesLeavesByTheirPointers() {
    Recording recording = Recording.of(
        FIRST + "{\"drive\": {\"heat\": [1, 20.5], \"speed\": 5}, \"meta\": {\"host\": \"a\"}, \"ts\": 7, \"chain\": "
            + "true}\n", LENIENT);
    assertThat(recording.summary().diagnostics()).isEmpty();
    assertThat(recording.events()).containsExactlyInAnyOrder(new Recording.Event(0, 0, 1),
        new Recording.Event(7_000_000, 1, 1), new Recording.Event(7_000_000, 2, Books.si(5 * 0.44704)),
        new Recording.Event(7_000_000, 3, Books.si(20.5 + 273.15)));
  }
}
