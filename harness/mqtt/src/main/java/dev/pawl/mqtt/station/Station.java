package dev.pawl.mqtt.station;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.LastWill;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.client.PublishRefused;
import dev.pawl.mqtt.client.PublishingConnection;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.feed.NumberCheck;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.guard.PatientPublisher;
import dev.pawl.mqtt.payload.PayloadWriter;
import dev.pawl.mqtt.payload.ReadingTaker;
import dev.pawl.mqtt.payload.TopicReader;
import dev.pawl.mqtt.payload.TopicReaders;
import dev.pawl.mqtt.replay.HandShake;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.time.HarnessClock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;

/** Logic served over a broker. Runs on the caller's thread. */
public final class Station {

  private static final long TICK = TimeUnit.MILLISECONDS.toNanos(1);

  /** Topic on which the broker says that the bench side has vanished. */
  public static final String WILL_TOPIC = "pawl/bench-side";

  private final RuleBook book;
  private final TopicReaders readers;
  private final TopicBindings inputs;
  private final List<String> claimed;
  private final PayloadWriter payloads;
  private final UnaryOperator<EventSink> logic;
  private final Pace pace;
  private final HarnessClock clock;
  private volatile boolean serves;

  /**
   * A station for logic.
   *
   * @param logic makes the logic: it takes inputs in order of time and hands outputs to the sink it is given
   * @param pace how fast logic time passes; that of the replay that is to come
   */
  public Station(RuleBook book, TopicBindings bindings, UnaryOperator<EventSink> logic, Pace pace, HarnessClock clock) {
    this.book = book;
    this.inputs = bindings.of(book, Set.of(Signal.Direction.INPUT));
    this.readers = new TopicReaders(book, inputs);
    TopicBindings outputs = bindings.of(book, Set.of(Signal.Direction.OUTPUT, Signal.Direction.INTERNAL));
    this.payloads = new PayloadWriter(book, outputs);
    this.claimed = Stream.concat(outputs.topics().stream(), Stream.of(HandShake.DONE_TOPIC)).toList();
    this.logic = logic;
    this.pace = pace;
    this.clock = clock;
  }

  /**
   * Serves until told to stop, or until somebody else publishes where it does.
   *
   * @param guard the permit for the broker that the settings name
   * @param listening how long to listen, before anything is sent, whether anybody else publishes there
   * @param serving is told that inputs are taken from now on
   * @throws dev.pawl.mqtt.client.ConnectionTrouble if no connection can be made, or if somebody else publishes where it
   *     does
   * @throws PublishRefused if the bench marker is taken down or expires
   */
  public void run(ConnectionSettings settings, BenchGuard guard, Duration listening, Runnable serving,
      BooleanSupplier stop)
      throws InterruptedException {
    String run = settings.clientId() + "-" + Long.toString(clock.now(), Character.MAX_RADIX);
    try (PublishingConnection publishing = new PublishingConnection(settings.withClientId(settings.clientId() + "-out"),
        run,
        Optional.of(new LastWill(WILL_TOPIC, "gone")), guard, claimed, clock)) {
      publishing.requireAlone(listening, stop);
      serve(settings, publishing, guard, serving, stop);
    }
  }

  private void serve(ConnectionSettings settings, PublishingConnection publishing, BenchGuard guard, Runnable begun,
      BooleanSupplier stop)
      throws InterruptedException {
    InboundQueue queue = new InboundQueue(1_000_000, clock);
    List<String> filters = new ArrayList<>(inputs.filters());
    filters.add(HandShake.STEP_TOPIC);
    try (ListeningConnection listening =
        new ListeningConnection(pace.listening(settings.withClientId(settings.clientId() + "-in")), filters, queue)) {
      Serving serving = new Serving(publishing, guard, stop);
      serves = true;
      begun.run();
      while (!stop.getAsBoolean()) {
        guard.require();
        publishing.requireAlone();
        Inbound item = queue.take(TICK);
        if (item != null) {
          serving.take(item);
        }
        serving.tick(queue.settledUntil());
      }
    }
  }

  /** Whether inputs are taken: the connections are up and all is subscribed. */
  public boolean isServing() {
    return serves;
  }

  /** An input that has come and waits for its step. */
  private record Waiting(int signal, long value) {}

  /** The logic at work. */
  private final class Serving implements ReadingTaker, EventSink {

    private static final long NOT_STARTED = Long.MIN_VALUE;
    private static final long NONE_LOST = -1;

    private final PublishingConnection publishing;
    private final PatientPublisher patient;
    private final BenchGuard guard;
    private final long[] present = new long[book.signals().size()];
    private boolean unsaid;
    private final NumberCheck numbers = new NumberCheck();
    private EventSink running;
    private final List<Waiting> waiting = new ArrayList<>();
    private String replayRun = "";
    private boolean isAgain;
    private boolean resynchronise;
    private long clockStart = NOT_STARTED;
    private long inputMessages;
    /** A step that counts no more inputs than this is not taken: some of them were lost. */
    private long lostUpTo = NONE_LOST;
    private long outputMessages;
    private long lastStep;
    private HandShake pendingStep;
    private long pendingTime;

    Serving(PublishingConnection publishing, BenchGuard guard, BooleanSupplier stop) {
      this.publishing = publishing;
      this.patient = new PatientPublisher(publishing, guard, stop);
      this.guard = guard;
      Arrays.fill(present, UNKNOWN);
      this.running = logic.apply(this);
    }

    void take(Inbound item) {
      if (item instanceof Inbound.Message message) {
        take(message);
      } else {
        isAgain |= item instanceof Inbound.Lost;
        resynchronise |= item instanceof Inbound.Connected && isAgain;
      }
    }

    private void take(Inbound.Message message) {
      if (message.topic().equals(HandShake.STEP_TOPIC)) {
        HandShake.parse(message.payload()).ifPresent(step -> {
          pendingStep = step;
          pendingTime = step.time() == Inbound.NO_NUMBER ? message.stamp().time() : step.time();
        });
      } else {
        input(message);
      }
      if (pendingStep != null && (inputMessages >= pendingStep.sent() || resynchronise)) {
        step();
      }
    }

    private void input(Inbound.Message message) {
      TopicReader reader = readers.of(message.topic());
      if (reader == null || message.retained() || numbers.next(message.topic(),
          message.stamp()) == NumberCheck.Order.DUPLICATE) {
        return;
      }
      if (message.stamp().isNumbered() && !message.stamp().run().equals(replayRun)) {
        startAnew(message.stamp().run());
      }
      inputMessages++;
      reader.read(message.payload(), this);
    }

    /** A replay begins: the logic is as after power-up. */
    private void startAnew(String run) {
      running = logic.apply(this);
      replayRun = run;
      inputMessages = 0;
      lostUpTo = NONE_LOST;
      outputMessages = 0;
      lastStep = 0;
      clockStart = NOT_STARTED;
      waiting.clear();
    }

    /**
     * A step that is asked for again is answered again; what waits then waits for the next. One whose inputs were lost
     * is not taken.
     */
    private void step() {
      resynchronise = false;
      if (inputMessages < pendingStep.sent()) {
        inputMessages = pendingStep.sent();
        lostUpTo = pendingStep.sent();
      }
      if (pendingStep.sent() <= lostUpTo) {
        answer(HandShake.again(pendingStep.number(), outputMessages));
        return;
      }
      if (pendingStep.number() > lastStep) {
        running.advanceTo(pendingTime);
        waiting.forEach(w -> running.event(pendingTime, w.signal(), w.value(), 0));
        waiting.clear();
        lastStep = pendingStep.number();
      }
      answer(HandShake.answer(pendingStep.number(), outputMessages));
    }

    private void answer(HandShake answer) {
      pendingStep = null;
      publish(HandShake.DONE_TOPIC, answer.bytes(), pendingTime);
    }

    @Override
    public void reading(int signal, long value, long stated) {
      waiting.add(new Waiting(signal, value));
    }

    /** Inputs belong to the step that they come before. */
    @Override
    public void traced(int signal, long value, long time) {
      waiting.add(new Waiting(signal, value));
    }

    @Override
    public void anomaly(Anomaly anomaly, int signal, String what) {
      // A controller's gateway leaves such a payload out, too.
    }

    /** Lets logic time pass with the clock, unless a hand-shake sets it. */
    void tick(long settled) {
      if (pace.isStepped()) {
        return;
      }
      if ((unsaid || resynchronise) && guard.refusal(HandShake.DONE_TOPIC).isEmpty()) {
        sayAgain();
      }
      if (clockStart == NOT_STARTED) {
        if (waiting.isEmpty()) {
          return;
        }
        clockStart = settled;
      }
      long now = Math.max(0, (long) ((settled - clockStart) * pace.factor()));
      running.advanceTo(now);
      waiting.forEach(w -> running.event(now, w.signal(), w.value(), 0));
      waiting.clear();
    }

    /** An event of the logic; those of inputs are passed on by it and no news. */
    @Override
    public void event(long time, int signal, long value, long line) {
      if (payloads.binding(signal) != null && value != UNKNOWN) {
        present[signal] = value;
        say(signal, pace.isStepped() ? time : Inbound.NO_NUMBER);
      }
    }

    /**
     * Sends an output. Where nothing can be sent because the connection is down, the outputs are said once it is up
     * again.
     *
     * @throws PublishRefused if the bench marker is gone for good
     */
    private void say(int signal, long time) {
      Optional<byte[]> payload = payloads.payload(signal, present[signal], clock.now(), time);
      if (payload.isEmpty()) {
        return;
      }
      publish(payloads.binding(signal).topic(), payload.get(), time);
      outputMessages++;
    }

    /**
     * Sends; while the bench marker cannot be seen, a hand-shake waits for it, and a pace goes on and says all outputs
     * afterwards.
     */
    private void publish(String topic, byte[] payload, long time) {
      if (pace.isStepped()) {
        patient.publish(topic, payload, time);
        return;
      }
      try {
        publishing.publish(topic, payload, false, time);
      } catch (PublishRefused e) {
        guard.require();
        unsaid = true;
      }
    }

    /** Says all outputs, and has all inputs said where some may have been lost. */
    private void sayAgain() {
      unsaid = false;
      if (resynchronise) {
        publish(HandShake.DONE_TOPIC, HandShake.again(0, outputMessages).bytes(), Inbound.NO_NUMBER);
        resynchronise = unsaid;
      }
      for (int signal = 0; signal < present.length; signal++) {
        if (present[signal] != UNKNOWN) {
          say(signal, Inbound.NO_NUMBER);
        }
      }
    }

    @Override
    public void advanceTo(long time) {
      // Outputs go out as they come.
    }
  }
}
