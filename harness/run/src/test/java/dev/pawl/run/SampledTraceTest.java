package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.LongPredicate;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A trace whose signals were looked at every now and then, judged as what it is. The ride is invented. */
class SampledTraceTest {

  @TempDir
  private Path folder;

  @BeforeEach
  void makeTheRide() throws IOException {
    write("ride.rules", """
        ride "Little Ratchet"
        resolution 10 ms
        input  stop_pressed : bool
        output lift_run     : bool
        rule STOP-01 "the lift stops when the stop is pressed"
          severity critical
          basis practice
          when rises(stop_pressed)
          must not lift_run within 500 ms
        """);
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private TraceResult judged(String trace, String bindings) throws IOException {
    RuleFiles rules = RuleFiles.load(List.of(folder.resolve("ride.rules").toString()));
    Path file = write("trace.csv", trace);
    Session session = Session.by(rules);
    if (!bindings.isEmpty()) {
      Path bound = write("site.bindings", bindings);
      session = session.withBindings(BindingsFiles.load(bound.toString(), rules.book()));
    }
    return session.judge(session.traces(List.of(file.toString()))).traces().get(0);
  }

  private static Verdict verdict(TraceResult result) {
    return result.rules().get(0).verdict();
  }

  private static List<String> said(TraceResult result) {
    return result.reading().counters().stream().map(Reading.Counter::label).toList();
  }

  /** A row of both signals each {@code period} ms of a minute, but for those left out. */
  private static String polled(int period, LongPredicate seen, LongPredicate pressed, LongPredicate runs) {
    StringBuilder rows = new StringBuilder("time_ms,stop_pressed,lift_run\n");
    LongStream.rangeClosed(0, 60_000 / period).map(row -> row * period).filter(seen)
        .forEach(time -> rows.append(time + "," + (pressed.test(time) ? 1 : 0) + "," + (runs.test(time) ? 1 : 0)
            + "\n"));
    return rows.toString();
  }

  /** Pressed at 30.1 s, stopped 740 ms later. */
  private static final LongPredicate PRESSED = time -> time >= 30_100;
  private static final LongPredicate RUNS = time -> time < 30_840;

  @Test
  void whatIsBrokenAtFullRateIsNotHeldWhenItIsLoggedEachSecond() throws IOException {
    assertThat(verdict(judged(polled(10, time -> true, PRESSED, RUNS), ""))).isEqualTo(Verdict.BROKEN);

    TraceResult coarse = judged(polled(1000, time -> true, PRESSED, RUNS), "");
    assertThat(verdict(coarse)).isEqualTo(Verdict.UNDECIDED);
    assertThat(said(coarse)).containsExactly(
        "signals taken as sampled, as the rows show, with the longest time between two looks: stop_pressed 1 s, "
            + "lift_run 1 s");
  }

  /** In the hole the lift stops in time, or somebody presses and lets go while the lift runs on. */
  @Test
  void aHoleHidesWhatHappensInIt() throws IOException {
    LongPredicate seen = time -> time <= 20_000 || time >= 45_000;
    TraceResult stopped = judged(polled(100, seen, time -> time >= 20_000, time -> time < 20_300), "");
    TraceResult ranOn = judged(polled(100, seen, time -> time >= 21_000 && time < 40_000, time -> true), "");

    assertThat(verdict(stopped)).isEqualTo(Verdict.UNDECIDED);
    assertThat(verdict(ranOn)).isEqualTo(Verdict.UNDECIDED);
    assertThat(said(stopped)).contains("hole in the rows of stop_pressed, lift_run, which are unknown in it; the "
        + "longest is 25 s, from 20.000 s");
  }

  @Test
  void aLogOfChangesIsTakenAsItIs() throws IOException {
    TraceResult result = judged("time_ms,signal,value\n0,stop_pressed,0\n0,lift_run,1\n30100,stop_pressed,1\n30840,lift_run,0\n60000,stop_pressed,0\n", "");

    assertThat(verdict(result)).isEqualTo(Verdict.BROKEN);
    assertThat(said(result)).isEmpty();
  }

  @Test
  void whatIsStatedGoesBeforeWhatTheRowsShow() throws IOException {
    String rows = polled(1000, time -> true, PRESSED, RUNS);
    assertThat(verdict(judged(rows, "sampling\n  all on change\n"))).isEqualTo(Verdict.HELD);

    String few = "time_ms,signal,value\n0,stop_pressed,0\n0,lift_run,1\n31000,stop_pressed,1\n31000,lift_run,0\n60000,stop_pressed,0\n";
    TraceResult stated = judged(few, "sampling\n  all every 60 s\n");
    assertThat(verdict(stated)).isEqualTo(Verdict.UNDECIDED);
    assertThat(said(stated)).containsExactly(
        "signals taken as sampled, as stated, with the longest time between two looks: stop_pressed 60 s, lift_run 60 "
            + "s");
  }

  /** Nothing is unknown for want of rows, and the lift may have stopped at any time since the look before. */
  @Test
  void aRecorderThatLooksNowAndThenAndWritesChangesHasNoHoles() throws IOException {
    String rows = "time_ms,signal,value\n0,stop_pressed,0\n0,lift_run,1\n31000,stop_pressed,1\n%s,lift_run,0\n90000,stop_pressed,0\n";
    String sparse = "sampling\n  all every 1 s, written when changed\n";
    TraceResult near = judged(String.format(rows, "31000"), sparse);
    assertThat(verdict(near)).isEqualTo(Verdict.UNDECIDED);
    assertThat(said(near)).containsExactly("signals taken as sampled and written when changed, as stated, with the "
        + "longest time between two looks: stop_pressed 1 s, lift_run 1 s");
    assertThat(verdict(judged(String.format(rows, "34000"), sparse))).isEqualTo(Verdict.BROKEN);
    assertThat(said(judged(String.format(rows, "34000"), sparse + "  lift_run silence 20 s\n")))
        .anyMatch(words -> words.startsWith("hole in the rows of lift_run"));
  }

  @Test
  void aStatedSilenceMakesASignalUnknown() throws IOException {
    String rows = "time_ms,signal,value\n0,stop_pressed,0\n0,lift_run,1\n1000,lift_run,1\n30000,stop_pressed,1\n30400,lift_run,0\n60000,stop_pressed,0\n";
    assertThat(verdict(judged(rows, ""))).isEqualTo(Verdict.HELD);
    TraceResult silent = judged(rows, "sampling\n  stop_pressed silence 2 s\n");
    assertThat(verdict(silent)).isEqualTo(Verdict.UNDECIDED);
    assertThat(said(silent)).singleElement().asString().startsWith("hole in the rows of stop_pressed");
  }

  @Test
  void timesThatAreAllMultiplesOfSomethingCoarseAreToldOf() throws IOException {
    StringBuilder rows = new StringBuilder("time_ms,signal,value\n0,stop_pressed,0\n0,lift_run,1\n");
    for (int row = 1; row < 150; row++) {
      rows.append(row * row * 500 + ",lift_run," + row % 2 + "\n");
    }
    assertThat(said(judged(rows.toString(), "")))
        .contains("instants, all of them multiples of 500 ms apart, which is coarser than the resolution stated");
    assertThat(said(judged(rows + "99999999,lift_run,1\n", ""))).isEmpty();
  }
}
