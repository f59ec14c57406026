package dev.pawl.trace;

import static org.assertj.core.api.Assertions.assertThat;

import com.github.luben.zstd.Zstd;
import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.trace.csv.CsvWriter;
import dev.pawl.trace.output.TraceWriter;
import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.vcd.VcdWriter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.Function;
import java.util.zip.GZIPOutputStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** The same trace in every format gives the same events. */
class FormatEqualityTest {

  private static final long MS = 1_000_000;
  private static final TraceOptions LIFT = TraceOptions.of(Books.LIFT);

  private static final List<Recording.Event> EVENTS = List.of(
      new Recording.Event(0, 0, 0), new Recording.Event(0, 1, 1), new Recording.Event(0, 2, Books.si(5 * 0.44704)),
      new Recording.Event(0, 4, 0), new Recording.Event(1500 * MS, 0, 1),
          new Recording.Event(1500 * MS, 3, Books.si(20.5 + 273.15)),
      new Recording.Event(2000 * MS, 4, 2), new Recording.Event(2250 * MS, 1, EventSink.UNKNOWN),
      new Recording.Event(2250 * MS, 2, EventSink.UNKNOWN), new Recording.Event(3000 * MS, 4, EventSink.UNKNOWN),
      new Recording.Event(3001 * MS, 1, 0));

  private static final String LONG = """
      time_ms,signal,value,quality
      0,lift_run,0,good
      0,estop_chain,TRUE,GOOD
      0,lift_speed,5,192
      0,mode,off,
      1500,lift_run,true,good
      1500,motor_heat,20.5,good
      2000,mode,automatic,good
      2250,estop_chain,1,bad
      2250,lift_speed,,0
      3000,mode,off,stale
      3001,estop_chain,0,good
      # end: 4000
      """;

  private static final String JSON = """
      {"time_ms": 0, "values": {"lift_run": 0, "estop_chain": true, "lift_speed": 5.0, "mode": "off"}}
      {"time_ms": 1500, "signal": "lift_run", "value": true, "quality": "good"}
      {"signal": "motor_heat", "value": 2.05e1, "time_ms": 1500}

      {"time_ms": "2000", "signal": "mode", "value": "automatic"}
      {"time_ms": 2250.0, "signal": "estop_chain", "value": 1, "quality": "bad"}
      {"time_ms": 2250, "signal": "lift_speed", "value": null}
      {"time_ms": 3000, "signal": "mode", "value": "off", "quality": 500}
      {"time_ms": 3001, "signal": "estop_chain", "value": false}
      {"time_ms": 4000, "end": true}
      """;

  private static final String VCD = """
      $date none $end
      $version by hand $end
      $timescale
        10 us
      $end
      $scope module ride $end
      $var wire 1 ! lift_run $end
      $var reg 1 " estop_chain $end
      $var real 64 # lift_speed $end
      $var real 64 $x motor_heat $end
      $var reg 2 %% mode [1:0] $end
      $upscope $end
      $enddefinitions $end
      #0
      $dumpvars 0! 1" r5 # rnan $x bx %% $end
      b00 %%
      #150000 1! r20.5 $x
      #200000
      b10 %%
      #225000
      x" rnan #
      #300000 bx0 %%
      #300100 0"
      #400000
      """;

  @Test
  void longCsvJsonAndValueChangeDumpAgree() {
    for (String trace : List.of(LONG, JSON, VCD)) {
      check(Recording.of(trace, LIFT));
    }
  }

  @Test
  void compressedTracesAgree() throws IOException {
    byte[] bytes = LONG.getBytes(StandardCharsets.UTF_8);
    ByteArrayOutputStream members = new ByteArrayOutputStream();
    for (byte[] half : List.of(Arrays.copyOf(bytes, 100), Arrays.copyOfRange(bytes, 100, bytes.length))) {
      try (GZIPOutputStream gzip = new GZIPOutputStream(members)) {
        gzip.write(half);
      }
    }
    check(Recording.of(members.toByteArray(), LIFT));
    check(Recording.of(Zstd.compress(bytes), LIFT));
  }

  @Test
  void spellingsOfCsvAgree() {
    check(Recording.of("\uFEFF" + LONG.replace("\n", "\r\n"), LIFT));
    check(Recording.of(LONG.stripTrailing(), LIFT));
    check(Recording.of("# a remark\n\n" + LONG.replace("lift_run", "\"lift_run\"")
        .replace(",0,good", ",\"0\",\"good\""), LIFT));
    check(Recording.of(LONG.replace("time_ms", "time"), LIFT.withTimeScale(TimeScale.MILLISECONDS)));
  }

  @Test
  void wideCsvAgreesWhereAllIsGood() {
    String wide = """
        time_ms,lift_run,estop_chain,lift_speed,motor_heat,mode
        0,0,1,5,,off
        1500,1,,,20.5,
        2000,,,,,automatic
        """;
    List<Recording.Event> good = EVENTS.subList(0, 7);
    for (String text : List.of(wide, wide.replace("\n", "\r\n"), wide.replace("off", "\"off\""),
        wide.stripTrailing())) {
      assertThat(Recording.of(text, LIFT).events()).isEqualTo(good);
    }
  }

  @Test
  void decodingAheadAgrees() {
    check(Recording.of(LONG, LIFT.withAhead(true)));
  }

  private static void check(Recording recording) {
    assertThat(recording.summary().diagnostics()).isEmpty();
    assertThat(recording.events()).isEqualTo(EVENTS);
    assertThat(recording.summary().times().end()).hasValue(4000 * MS);
    assertThat(recording.summary().outcome()).isEqualTo(TraceSummary.Outcome.COMPLETE);
  }

  @Property(tries = 200)
  void whatIsWrittenReadsBackTheSame(@ForAll long seed, @ForAll TimeScale scale, @ForAll @IntRange(max = 300) int count)
      throws IOException {
    List<Recording.Event> events = random(new Random(seed), count);
    byte[] csv = written(out -> new CsvWriter(out, Books.LIFT.signals(), scale), events);
    assertThat(Recording.of(csv, LIFT).events()).isEqualTo(events);
    byte[] dump = written(out -> new VcdWriter(out, Books.LIFT.signals(), "ride"), events);
    assertThat(withoutFirstUnknowns(Recording.of(dump, LIFT).events())).isEqualTo(withoutFirstUnknowns(events));
    for (byte[] bytes : List.of(csv, dump)) {
      assertThat(Recording.of(bytes, LIFT.withAhead(true)).events()).isEqualTo(Recording.of(bytes, LIFT).events());
    }
  }

  private static byte[] written(Function<ByteArrayOutputStream, TraceWriter> kind,
      List<Recording.Event> events) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (TraceWriter writer = kind.apply(bytes)) {
      events.forEach(event -> writer.event(event.time(), event.signal(), event.value(), 0));
      writer.end(events.isEmpty() ? 5 : events.get(events.size() - 1).time() + 5);
    }
    return bytes.toByteArray();
  }

  /** Events in order of time, without two of one value for one signal at one time. */
  private static List<Recording.Event> random(Random random, int count) {
    List<Recording.Event> events = new ArrayList<>();
    long[] lastTime = new long[5];
    long[] lastValue = new long[5];
    Arrays.fill(lastTime, -1);
    long time = random.nextInt(1000);
    for (int i = 0; i < count; i++) {
      time += random.nextInt(3) == 0 ? 0 : random.nextInt(4) == 0 ? random.nextInt(1_000_000_000)
          : random.nextInt(1000) * MS;
      int signal = random.nextInt(5);
      long value = random.nextInt(8) == 0 ? EventSink.UNKNOWN : value(random, signal);
      if (time != lastTime[signal] || value != lastValue[signal]) {
        events.add(new Recording.Event(time, signal, value));
        lastTime[signal] = time;
        lastValue[signal] = value;
      }
    }
    return events;
  }

  private static long value(Random random, int signal) {
    double logged = random.nextBoolean() ? random.nextInt(100_000) / 1000.0 : (random.nextDouble() - 0.5) * 1e6;
    return switch (signal) {
      case 2 -> Books.si(UnitTable.find("mph").orElseThrow().toSi(logged));
      case 3 -> Books.si(UnitTable.find("degC").orElseThrow().toSi(logged));
      case 4 -> random.nextInt(3);
      default -> random.nextInt(2);
    };
  }

  /** A dump states at its start that nothing is known, so that this is no event there. */
  private static List<Recording.Event> withoutFirstUnknowns(List<Recording.Event> events) {
    List<Recording.Event> rest = new ArrayList<>();
    boolean[] known = new boolean[5];
    for (Recording.Event event : events) {
      known[event.signal()] |= event.value() != EventSink.UNKNOWN;
      if (known[event.signal()]) {
        rest.add(event);
      }
    }
    return rest;
  }
}
