package dev.pawl.report.compare;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Position;
import dev.pawl.report.model.TimeBase;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Edges of an output by the second at which it changes, from false on: which are the same, moved, vanished and added.
 */
class OutputChangesTest {

  private static final EventSink NOWHERE = new EventSink() {
    @Override
    public void event(long time, int signal, long value, long line) {}

    @Override
    public void advanceTo(long time) {}
  };

  private static final int OUTPUT = 0;
  private static final RuleBook BOOK = new RuleBook("", 0,
      List.of(new Signal(OUTPUT, "lift_run", Signal.Direction.OUTPUT, new ValueType.Bool(),
      new Position("t.rules", 1, 1, 1))), List.of(), List.of());

  private static EdgeLog log(String seconds) {
    EdgeLog log = new EdgeLog(BOOK, NOWHERE);
    log.event(0, OUTPUT, 0, 0);
    long value = 1;
    for (String second : seconds.isBlank() ? new String[0] : seconds.split(" ")) {
      long time = Math.round(Double.parseDouble(second) * 1e9);
      log.event(time, OUTPUT, value, 0);
      log.event(time + 1, OUTPUT, value, 0);
      value = 1 - value;
    }
    return log;
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', nullValues = "none", value = {
      "1 2       | 1 2        | ''                                                   | none",
      "1 2       | 1 2.5      | moved false 2.0->2.5                                 | 2",
      "10 20     | 9.5 20     | moved true 10.0->9.5                                 | 2",
      "1 2 5 6   | 1 2        | vanished true 5.0, vanished false 6.0                | 3",
      "1 10      | 1 3 4 10   | added false 3.0, added true 4.0                      | 3",
      "1 30      | 1 60       | vanished false 30.0, added false 60.0                | 2",
      "''        | 4          | added true 4.0                                       | 1",
      "1 2 3 4   | 1.1 2.1 3 4| moved true 1.0->1.1, moved false 2.0->2.1            | 3"})
  void edgesFindTheirPartners(String before, String after, String expected, Long unchanged) {
    List<OutputChanges> outputs = OutputChanges.of("trace", TimeBase.START, BOOK, log(before), log(after));
    if (unchanged == null) {
      assertThat(outputs).isEmpty();
      return;
    }
    assertThat(outputs).hasSize(1);
    assertThat(outputs.get(0).changes().stream().map(OutputChangesTest::words).collect(Collectors.joining(", ")))
        .isEqualTo(expected);
    assertThat(outputs.get(0).unchanged()).isEqualTo(unchanged);
  }

  private static String words(EdgeChange change) {
    String time = change.kind() == EdgeChange.Kind.MOVED ? change.before() / 1e9 + "->" + change.after() / 1e9 : ""
        + change.time() / 1e9;
    return change.kind().name().toLowerCase(Locale.ROOT) + " " + change.value() + " " + time;
  }
}
