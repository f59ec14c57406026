package dev.pawl.mqtt.demo;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.replay.InputSource;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.replay.ReplayTimeouts;
import dev.pawl.mqtt.replay.Replay;
import dev.pawl.mqtt.replay.ReplayResult;
import dev.pawl.mqtt.replay.ReplaySetting;
import dev.pawl.mqtt.station.Station;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.ForeignBench;
import dev.pawl.mqtt.support.NewRows;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.stream.Collectors;

/**
 * A bench that runs the demo's programs, one after the other, behind a broker: the harness's own bench side, which
 * speaks MQTT 5, or a foreign one of MQTT 3.1.1 with the trace's time in its payloads.
 */
final class DemoBench implements AutoCloseable {

  private static final HarnessClock CLOCK = HarnessClock.started();
  private static final String NAME = "bench-1";
  private static final TopicBindings PLAIN = TopicBindings.byName(DemoDay.BOOK, "kestrel");
  private static final TopicBindings TIMED =
      TopicBindings.resolve(BindingsFile.parse(new Source("t", DemoDay.BOOK.signals().stream()
      .map(signal -> "  " + signal.name() + " on \"kestrel/" + signal.name() + "\""
          + (signal.direction() == Signal.Direction.INPUT ? "" : " json \"/v\" trace time \"/t\" ns") + "\n")
      .collect(Collectors.joining("", "topics\n", "")))), DemoDay.BOOK).bindings();

  private final TopicBindings bindings;
  private final ConnectionSettings settings;
  private final BenchGuard guard;
  private final AutoCloseable side;
  private volatile String program = DemoDay.RIGHT;

  DemoBench(TestBroker broker, boolean foreign) {
    Bench.putUpMarker(broker, NAME);
    this.bindings = foreign ? TIMED : PLAIN;
    this.side = foreign ? ForeignBench.stepped(broker.address(), DemoDay.BOOK, "kestrel", true, this::power)
        : Bench.serve(new Station(DemoDay.BOOK, bindings, this::power, Pace.STEPPED, CLOCK), broker, NAME, CLOCK);
    this.settings = ConnectionSettings.of(broker.address(), "demo");
    this.guard = new BenchGuard(settings.withClientId("demo-guard"), NAME, CLOCK, Duration.ofSeconds(5));
  }

  private EventSink power(EventSink out) {
    return DemoDay.logic(program, out);
  }

  /** Loads a program and plays a day to it. */
  ReplayResult play(String next, InputSource day, EventSink judge, Path file) throws IOException {
    program = next;
    try (Recording recording = new Recording(NewRows.at(file), DemoDay.BOOK.signals(), TimeScale.RFC_3339)) {
      return new Replay(new ReplaySetting(DemoDay.BOOK, bindings, Pace.STEPPED,
          new ReplayTimeouts(Duration.ZERO, Duration.ofSeconds(20), Duration.ZERO), CLOCK, () -> false))
          .run(settings, guard, day, judge, recording);
    }
  }

  @Override
  public void close() throws Exception {
    guard.close();
    side.close();
  }
}
