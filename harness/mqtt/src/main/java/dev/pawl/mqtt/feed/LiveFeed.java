package dev.pawl.mqtt.feed;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.payload.Excerpts;
import dev.pawl.mqtt.payload.ReadingTaker;
import dev.pawl.mqtt.payload.TopicReader;
import dev.pawl.mqtt.payload.TopicReaders;
import dev.pawl.mqtt.sparkplug.SparkplugReader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.LongSupplier;

/**
 * Takes what connections bring and turns it into the merged stream. All of it happens on the thread that calls
 * {@link #step}.
 */
public final class LiveFeed implements ReadingTaker {

  private static final long TICK = TimeUnit.MILLISECONDS.toNanos(5);
  private static final long LONG_SILENCE = TimeUnit.SECONDS.toNanos(1);
  private static final int BATCH = 512;
  /** How long the end of a run waits for the broker to say that this was all. */
  private static final long PATIENCE_FOR_AN_ANSWER = TimeUnit.SECONDS.toNanos(5);

  private final InboundQueue queue;
  private final TopicReaders readers;
  private final SparkplugReader sparkplug;
  private final Merger merger;
  private final EvidenceLog evidence;
  private final FeedListener listener;
  private final Runnable secure;
  private final Map<String, List<Integer>> topicSignals = new HashMap<>();
  private final NumberCheck numbers = new NumberCheck();
  private final Hearing hearing;
  private long messages;
  private final DropCount drops;
  private final boolean resumes;
  private ListeningConnection connection;
  private boolean connected;
  private final Inbound.Taker taker = new Taking();
  private Inbound.Lost lost;
  private Inbound.Message current;

  /**
   * A feed from the queue into the merger.
   *
   * @param resumes whether a lost connection may be taken up again with nothing missing, so that only its end shows
   *     what it was
   * @param secure makes what has been handed on safe; called when all that came has been taken
   */
  public LiveFeed(RuleBook book, TopicBindings bindings, InboundQueue queue, Merger merger, boolean resumes,
      Runnable secure,
      FeedListener listener) {
    this.resumes = resumes;
    this.queue = queue;
    this.readers = new TopicReaders(book, bindings);
    bindings.list().forEach(b -> topicSignals.computeIfAbsent(b.topic(), t -> new ArrayList<>()).add(b.signal()));
    this.sparkplug = new SparkplugReader(book, bindings);
    this.hearing = new Hearing(book, bindings);
    this.merger = merger;
    this.evidence = merger.evidence();
    this.secure = secure;
    this.listener = listener;
    this.drops = new DropCount(merger);
  }

  /**
   * From now on heeds the connection's signs of life, looks how many messages the broker has dropped, and has the
   * connection made anew where it has.
   */
  public void follow(LongSupplier brokerDrops, ListeningConnection listening) {
    connection = listening;
    drops.follow(brokerDrops, listening);
  }

  /**
   * Takes what is there, waiting a few milliseconds if nothing is, and lets time pass.
   */
  public void step() throws InterruptedException {
    connection.requireKept();
    Inbound item = queue.take(TICK);
    drops.look(queue.settledUntil());
    for (int i = 0; item != null; i++) {
      item.giveTo(taker);
      item = i < BATCH ? queue.take(0) : null;
    }
    merger.advance(settled());
    secure.run();
    listener.settled(merger.horizon());
  }

  /**
   * What may have come by a connection after its last sign of life is not known yet, so nothing is judged beyond that.
   */
  private long settled() {
    return connected ? queue.settledUntil(connection::silence) : queue.settledUntil();
  }

  /**
   * Takes what comes until the broker shows by a sign of life that this was all up to now, and has said once more how
   * many messages it has dropped, where it tells that at all.
   */
  public void close() throws InterruptedException {
    long now = queue.settledUntil(() -> 0);
    connection.askForLife();
    stepUntil(() -> settled() >= now);
    long before = drops.timesTold();
    if (before > 0 && connection.askForDrops()) {
      stepUntil(() -> drops.timesTold() > before);
    }
  }

  private void stepUntil(BooleanSupplier over) throws InterruptedException {
    long begun = System.nanoTime();
    while (!over.getAsBoolean() && System.nanoTime() - begun < PATIENCE_FOR_AN_ANSWER) {
      step();
    }
  }

  /** Takes all that is left in the queue and hands everything on. */
  public void finish() throws InterruptedException {
    for (Inbound item = queue.take(0); item != null; item = queue.take(0)) {
      item.giveTo(taker);
    }
    gap();
    merger.drain();
    secure.run();
  }

  /** Takes what comes out of the queue. */
  private final class Taking implements Inbound.Taker {

    @Override
    public void take(Inbound.Message message) {
      message(message);
    }

    @Override
    public void take(Inbound.Connected connection) {
      gap();
      up(connection);
    }

    @Override
    public void take(Inbound.Resumed connection) {
      evidence.note(Anomaly.RESUMED, merger.timeline().ofArrival(connection.arrival()), -1, lost == null ? ""
          : lost.detail());
      lost = null;
      up(connection);
    }

    private void up(Inbound.News connection) {
      connected = true;
      drops.connected();
      listener.news(connection);
    }

    @Override
    public void take(Inbound.Lost connection) {
      lost = connection;
      connected = false;
      if (!resumes) {
        gap();
      }
      listener.news(connection);
    }

    @Override
    public void take(Inbound.Overflow overflow) {
      evidence.noteForAll(Anomaly.OVERFLOW, merger.timeline().ofArrival(overflow.arrival()), overflow.detail());
      merger.allUnknown(overflow.arrival());
    }

    @Override
    public void take(Inbound.Own own) {
      // An input said again after a gap bears the time before it was sent, which may have been judged meanwhile.
      merger.place(Math.max(merger.horizon(), own.time()), own.signal(), own.value());
    }
  }

  /** The connection was lost, and nothing that came meanwhile was kept. */
  private void gap() {
    if (lost != null) {
      silence(lost);
      evidence.noteForAll(Anomaly.CONNECTION_GAP, merger.timeline().ofArrival(lost.arrival()), lost.detail());
      merger.allUnknown(lost.arrival());
      lost = null;
    }
  }

  /** A broken cable shows by nothing coming, and nothing was judged meanwhile. */
  private void silence(Inbound.Lost lost) {
    if (lost.silence() > LONG_SILENCE) {
      String seconds = String.format(Locale.ROOT, "nothing came for %.1f s", lost.silence() / 1e9);
      evidence.noteForAll(Anomaly.SILENCE, merger.timeline().ofArrival(lost.arrival()), seconds);
    }
  }

  private void message(Inbound.Message message) {
    if (message.topic().equals(ListeningConnection.DROPS_TOPIC)) {
      drops.told(message);
      return;
    }
    messages++;
    hearing.message(message.topic());
    current = message;
    if (isFresh(message)) {
      read(message);
      listener.taken(message);
    }
  }

  /** Follows the numbers of harness messages; a repetition is left out. */
  private boolean isFresh(Inbound.Message message) {
    if (message.retained()) {
      return true;
    }
    switch (numbers.next(message.topic(), message.stamp())) {
      case DUPLICATE -> {
        anomaly(Anomaly.DUPLICATE, -1, "number " + message.stamp().sequence() + " came twice");
        return false;
      }
      case GAP -> gap(message);
      case REORDERED -> anomaly(Anomaly.REORDERED, -1, "number " + message.stamp().sequence()
          + " came after higher ones");
      case NEXT, UNKNOWN -> { }
    }
    return true;
  }

  private void gap(Inbound.Message message) {
    String what = "number " + message.stamp().sequence() + " came with some before it missing";
    List<Integer> signals = topicSignals.getOrDefault(message.topic(), List.of());
    if (signals.isEmpty()) {
      anomaly(Anomaly.SEQUENCE_GAP, -1, what);
    }
    for (int signal : signals) {
      anomaly(Anomaly.SEQUENCE_GAP, signal, what);
      merger.unknown(signal, message.arrival());
    }
  }

  private void read(Inbound.Message message) {
    TopicReader reader = readers.of(message.topic());
    if (reader != null) {
      reader.read(message.payload(), this);
    } else if (!sparkplug.read(message.topic(), message.payload(), this) && !listener.other(message)) {
      anomaly(Anomaly.FOREIGN, -1, "a message came on " + Excerpts.of(message.topic()));
    }
  }

  @Override
  public void reading(int signal, long value, long stated) {
    if (current.retained()) {
      anomaly(Anomaly.RETAINED, signal, "a kept value came when listening began");
    }
    if (value == EventSink.UNKNOWN && stated == NO_TIME) {
      merger.unknown(signal, current.arrival());
      return;
    }
    heard(signal, value);
    place(signal, value, stated);
  }

  @Override
  public void traced(int signal, long value, long time) {
    if (current.retained()) {
      reading(signal, value, NO_TIME);
    } else {
      heard(signal, value);
      merger.stamped(signal, value, time, current.arrival());
    }
  }

  private void heard(int signal, long value) {
    hearing.value(signal, value);
    listener.heard(signal, value);
  }

  private void place(int signal, long value, long stated) {
    if (!current.retained() && current.stamp().isTimed()) {
      merger.stamped(signal, value, current.stamp().time(), current.arrival());
    } else if (!current.retained() && stated != NO_TIME) {
      merger.stated(signal, value, stated, current.arrival());
    } else if (current.retained()) {
      merger.arrived(signal, value, current.arrival());
    } else {
      merger.untimed(signal, value, current.arrival());
    }
  }

  @Override
  public void anomaly(Anomaly anomaly, int signal, String what) {
    evidence.note(anomaly, merger.timeline().ofArrival(current.arrival()), signal, what);
    if (anomaly == Anomaly.MALFORMED && signal >= 0) {
      merger.unknown(signal, current.arrival());
    }
  }

  /** What has been heard so far. */
  public Hearing hearing() {
    return hearing;
  }

  /** Messages taken so far. */
  public long messages() {
    return messages;
  }
}
