package dev.pawl.bench.mqtt;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.feed.FeedListener;
import dev.pawl.mqtt.live.LiveOptions;
import dev.pawl.mqtt.live.LiveResult;
import dev.pawl.mqtt.live.LiveRun;
import dev.pawl.mqtt.live.LiveSetting;
import dev.pawl.mqtt.time.HarnessClock;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;

/**
 * What {@code pawl watch} is made of: every message is an event, every event breaks a rule, and the finding is what is
 * heard.
 */
final class JudgingTaker implements Taker, FindingListener {

  static final String PREFIX = "load";
  static final String TOPIC = PREFIX + "/position";
  private static final String RULES = """
      ride "Load"
      input position : number

      rule LOAD-01 "Every change is a finding"
        basis practice
        when changes(position)
        must position < 0
      """;

  private static final Set<Anomaly> OF_LOSS = Set.of(Anomaly.BROKER_DROPPED, Anomaly.DROPS_TOLD, Anomaly.OVERFLOW,
      Anomaly.CONNECTION_GAP);

  private final Heard heard;
  private final Thread thread;
  private final CountDownLatch connected = new CountDownLatch(1);
  private volatile boolean stop;
  private volatile LiveResult result;

  JudgingTaker(BrokerAddress broker, LongSupplier dropped, Heard heard) throws InterruptedException {
    this.heard = heard;
    RuleBook book = RuleLanguage.compile(List.of(new Source("load.rules", RULES)), SourceLoader.none()).book()
        .orElseThrow();
    RuleEngine engine = new RuleEngine(book, new EngineOptions(true, Integer.MAX_VALUE), this);
    LiveRun run = new LiveRun(new LiveSetting(book, TopicBindings.byName(book, PREFIX), LiveOptions.DEFAULT,
        HarnessClock.started()), engine, Optional.empty(), false, new FeedListener() {
          @Override
          public void news(Inbound.News news) {
            connected.countDown();
          }
        });
    thread = new Thread(() -> {
      try {
        result = run.run(ConnectionSettings.of(broker, "judging").withBrokerDrops(dropped), () -> stop);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }, "bench-judging");
    thread.start();
    if (!connected.await(20, TimeUnit.SECONDS)) {
      throw new IllegalStateException("not connected within 20 s");
    }
  }

  /** The first value is no change, so the first message has none. */
  @Override
  public void finding(Finding finding) {
    heard.number((int) Double.longBitsToDouble(finding.evidence().get(0).value()), System.nanoTime());
  }

  @Override
  public void tracking(TrackingFinding finding) {
    throw new IllegalStateException("there are no zones");
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    throw new IllegalStateException("no deadline can be missed");
  }

  /** Messages that the result says were dropped; to be asked once closed. */
  long statedLost() {
    return result.evidence().stream().filter(item -> OF_LOSS.contains(item.anomaly())
        && item.anomaly() != Anomaly.CONNECTION_GAP)
        .mapToLong(EvidenceLog.Item::count).sum();
  }

  @Override
  public void close() throws InterruptedException {
    stop = true;
    thread.join(30_000);
    if (result == null) {
      throw new IllegalStateException("listening did not end");
    }
    if (result.evidence().stream().map(EvidenceLog.Item::anomaly).anyMatch(anomaly -> !OF_LOSS.contains(anomaly))) {
      throw new IllegalStateException("the evidence is in doubt: " + result.evidence());
    }
  }
}
