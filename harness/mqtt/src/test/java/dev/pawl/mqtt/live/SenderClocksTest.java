package dev.pawl.mqtt.live;

import static dev.pawl.mqtt.support.LiveSession.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.evidence.DoubtedVerdict;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.feed.FeedListener;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.SenderClocks;
import dev.pawl.mqtt.replay.Widening;
import dev.pawl.mqtt.support.Both;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.NewRows;
import dev.pawl.mqtt.support.Rehearsal;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.time.TimeScale;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Function;
import org.eclipse.tahu.protobuf.SparkplugBProto.DataType;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.Metric;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What senders' clocks show must not matter. Rides that differ in nothing else say the same at once: a stop, the brake
 * a second after it, the drive off another second later. Two rules hold by a second, two are broken by at least that,
 * all by order or by time.
 */
class SenderClocksTest {

  private static final HarnessClock CLOCK = HarnessClock.started();
  private static final long[] AHEAD = {-86_400_000, -3_600_000, -37_000, -5000, -1000, 0, 5000, 3_600_000, 86_400_000};
  private static final int SIGNALS = 3;
  private static final String RULES = """
      input estop_N : bool
      output brake_N, drive_N : bool
      rule IN_TIME-N ""     basis practice when falls(estop_N) must brake_N within 2 s
      rule LATE-N ""        basis practice when falls(estop_N) must not drive_N within 500 ms
      rule IN_ORDER-N ""    basis practice when falls(estop_N) must brake_N before not drive_N
      rule OUT_OF_ORDER-N "" basis practice when falls(estop_N) must not drive_N before brake_N
      """;
  private static final List<Verdict> EQUAL_CLOCKS = List.of(Verdict.HELD, Verdict.BROKEN, Verdict.HELD, Verdict.BROKEN);

  /** Who tells the three signals. */
  private enum Senders {
    ONE("estop_N on 'N/plc' json '/v0' time '/t' ms; brake_N on 'N/plc' json '/v1' time '/t' ms; drive_N on 'N/plc' "
        + "json '/v2' time '/t' ms"),
    TWO("estop_N on 'N/a' json '/v0' time '/t' ms; brake_N on 'N/b' json '/v1' time '/t' ms; drive_N on 'N/b' json "
        + "'/v2' time '/t' ms"),
    ONE_BESIDE_UNTIMED("estop_N on 'N/a' json '/v0' time '/t' ms; brake_N on 'N/b' json '/v1' time '/t' ms; drive_N "
        + "on 'N/c'"),
    SPARKPLUG("estop_N on sparkplug 'park/nodeN' metric '0'; brake_N on sparkplug 'park/nodeN' metric '1';"
        + " drive_N on sparkplug 'park/nodeN' metric '2'");

    private final String bindings;

    Senders(String bindings) {
      this.bindings = bindings.replace('\'', '"').replace(";", "\n ");
    }
  }

  /** One of the rides. */
  private record Case(int number, Senders senders, long ahead) {

    String named(String text) {
      return text.replace("N", Integer.toString(number));
    }

    /** Says the value of one of the signals as its sender would, now. */
    void say(Foreign ride, int signal, int value) {
      long now = CLOCK.now() / Ride.MS;
      switch (senders) {
        case ONE -> json(ride, number + "/plc", signal, value, now + ahead);
        case TWO -> json(ride, number + (signal == 0 ? "/a" : "/b"), signal, value, signal == 0 ? now + ahead
            : now - ahead / 3);
        case ONE_BESIDE_UNTIMED -> {
          if (signal == 2) {
            ride.send(number + "/c", Integer.toString(value));
          } else {
            json(ride, number + (signal == 0 ? "/a" : "/b"), signal, value, now + ahead);
          }
        }
        case SPARKPLUG -> ride.send("spBv1.0/park/NDATA/node" + number, payload(now + ahead)
            .addMetrics(metric(signal, value)).build().toByteArray(), 1, false);
      }
    }

    private static void json(Foreign ride, String topic, int signal, int value, long time) {
      ride.send(topic, "{\"v" + signal + "\":" + value + ",\"t\":" + time + "}");
    }

    /** The first values. */
    void begin(Foreign ride) {
      if (senders == Senders.SPARKPLUG) {
        Payload.Builder birth = payload(CLOCK.now() / Ride.MS + ahead).setSeq(0);
        for (int signal = 0; signal < SIGNALS; signal++) {
          // Since when it has had its value, which is long before it says so.
          birth.addMetrics(metric(signal, signal == 1 ? 0 : 1).setTimestamp(1000));
        }
        ride.send("spBv1.0/park/NBIRTH/node" + number, birth.build().toByteArray(), 1, false);
      } else {
        say(ride, 2, 1);
        say(ride, 1, 0);
        say(ride, 0, 1);
      }
    }

    private static Payload.Builder payload(long time) {
      return Payload.newBuilder().setTimestamp(time);
    }

    private static Metric.Builder metric(int signal, int value) {
      return Metric.newBuilder().setName(Integer.toString(signal)).setDatatype(DataType.Boolean.getNumber())
          .setBooleanValue(value == 1);
    }
  }

  @TempDir
  private Path folder;
  private final List<Case> cases = new ArrayList<>();
  private final Ride.Kept kept = new Ride.Kept();
  private volatile boolean connected;
  private volatile boolean stop;
  private volatile LiveResult result;

  SenderClocksTest() {
    for (Senders senders : Senders.values()) {
      for (long ahead : AHEAD) {
        cases.add(new Case(cases.size(), senders, ahead));
      }
    }
  }

  private String joined(Function<Case, String> text) {
    return String.join("\n", cases.stream().map(c -> c.named(text.apply(c))).toList()) + "\n";
  }

  @Test
  void noClockMakesAVerdictBetterOrARecordingWrong() throws Exception {
    RuleBook book = Ride.book(joined(c -> RULES));
    TopicBindings bindings = TopicBindings.resolve(BindingsFile.parse(new Source("t", "topics\n"
        + joined(c -> "  " + c.senders.bindings))), book)
        .bindings();
    SenderClocks clocks = new SenderClocks(bindings, LiveOptions.DEFAULT.window());
    RuleEngine engine = new RuleEngine(Widening.of(book, clocks::uncertainty), EngineOptions.DEFAULT,
        new Ride.Findings());
    Path file = folder.resolve("recorded.csv");
    TestBroker broker = TestBrokers.all().get(TestBrokers.all().size() - 1);
    try (Recording recording = new Recording(NewRows.at(file), book.signals(), TimeScale.RFC_3339)) {
      LiveRun run = new LiveRun(new LiveSetting(book, bindings, LiveOptions.DEFAULT, CLOCK), new Both(kept, engine),
          Optional.of(recording), false, new FeedListener() {
        @Override
        public void news(Inbound.News news) {
          connected = news instanceof Inbound.Connected;
        }
      });
      Thread session = new Thread(() -> {
        try {
          result = run.run(ConnectionSettings.of(broker.address(), "watch"), () -> stop);
        } catch (InterruptedException e) {
          Thread.currentThread().interrupt();
        }
      }, "test-watch");
      session.start();
      try (Foreign ride = new Foreign(broker.address(), "ride")) {
        await(() -> connected);
        play(ride);
        cases.forEach(c -> await(() -> kept.events().stream().filter(e -> e.signal() / SIGNALS == c.number)
            .count() >= 3 * SIGNALS));
      } finally {
        stop = true;
        session.join();
      }
    }
    TraceOutcome live = engine.finish(result.end());
    TraceOutcome offline = Rehearsal.judged(file, book, new Ride.Findings());
    for (Case each : cases) {
      List<Verdict> seen = new ArrayList<>();
      List<Verdict> checked = new ArrayList<>();
      for (int rule = 4 * each.number; rule < 4 * each.number + 4; rule++) {
        seen.add(DoubtedVerdict.of(live.rules().get(rule), book, result.evidence()));
        checked.add(offline.rules().get(rule).verdict());
      }
      requireEqualClocks(each, "live", seen, result.evidence());
      requireEqualClocks(each, "recorded", checked, result.evidence());
      requireDistances(each);
    }
  }

  /** All rides at once, a second between one value and the next. */
  private void play(Foreign ride) {
    cases.forEach(c -> c.begin(ride));
    pause();
    // A machine that has just begun is slow with the first, and takes that for the clock.
    cases.forEach(c -> c.begin(ride));
    pause();
    cases.forEach(c -> c.say(ride, 0, 0));
    pause();
    cases.forEach(c -> c.say(ride, 1, 1));
    pause();
    cases.forEach(c -> c.say(ride, 2, 0));
  }

  /** It is the ride that takes a second here. */
  private static void pause() {
    long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(1);
    while (System.nanoTime() < until) {
      LockSupport.parkNanos(until - System.nanoTime());
    }
  }

  /**
   * On a machine that is so busy that a message of the ride is late its rules may be undecided, never better or worse.
   */
  private static void requireEqualClocks(Case each, String how, List<Verdict> verdicts,
      List<EvidenceLog.Item> evidence) {
    boolean late = evidence.stream().anyMatch(item -> item.anomaly().misplacesTimes() && item.signals().stream()
        .anyMatch(s -> s / SIGNALS == each.number));
    for (int i = 0; i < verdicts.size(); i++) {
      boolean excused = late && verdicts.get(i) == Verdict.UNDECIDED;
      assertThat(excused ? EQUAL_CLOCKS.get(i) : verdicts.get(i)).as(each + ", " + how + ": " + verdicts)
          .isEqualTo(EQUAL_CLOCKS.get(i));
    }
  }

  private void requireDistances(Case each) {
    long[] times = new long[SIGNALS];
    for (Ride.Event event : kept.events()) {
      if (event.signal() / SIGNALS == each.number) {
        times[event.signal() % SIGNALS] = event.time();
      }
    }
    assertThat(times[1] - times[0]).as(each + ": from the stop to the brake").isBetween(900 * Ride.MS, 1800 * Ride.MS);
    assertThat(times[2] - times[1]).as(each + ": from the brake to the drive").isBetween(900 * Ride.MS, 1800 * Ride.MS);
  }
}
