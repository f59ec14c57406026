package dev.pawl.mqtt.replay;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.binding.TopicBinding;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.guard.PatientPublisher;
import dev.pawl.mqtt.payload.PayloadWriter;
import dev.pawl.mqtt.sparkplug.SparkplugCommand;
import dev.pawl.mqtt.time.Distribution;
import dev.pawl.mqtt.time.HarnessClock;
import java.time.Duration;
import java.util.Arrays;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;

/** Takes a trace's events and sends its inputs when they are due. Ends itself by {@link PlayStopped}. */
final class Player implements EventSink {

  private static final long LONGEST_WAIT = TimeUnit.MILLISECONDS.toNanos(20);
  private static final long LEAD = TimeUnit.MILLISECONDS.toNanos(20);
  private static final long RETRY_MILLISECONDS = 1000;
  private static final long NOT_SENT = Long.MAX_VALUE;

  private final RuleBook book;
  private final PayloadWriter payloads;
  private final Pace pace;
  private final Duration patience;
  private final ReplayTimeline timeline;
  private final InboundQueue queue;
  private final PatientPublisher publisher;
  private final Answers answers;
  private final FeedThread taking;
  private final HarnessClock clock;
  private final BooleanSupplier stop;
  private final WaitingNotice notice;
  private final Optional<EventSink> reacting;
  private final Distribution lateness = new Distribution();
  private final long[] sentValues;
  private long longestStall;
  private boolean started;
  private long present;
  /** At a pace: the trace time that is waited for; no event before it is to come. */
  private long next;
  private long steps;
  private long inputsSent;
  /** Inputs that the last step counted. */
  private long inputsAsked;
  private long inputs;
  private long replaced;
  private long unsaid;
  private long occasionsSeen = 1;

  /**
   * Where a player sends, and what takes what comes back.
   *
   * @param queue takes the values that are not sent
   * @param answers what the bench side says
   * @param taking the thread that takes what comes
   */
  record Ways(ReplayTimeline timeline, PatientPublisher publisher, InboundQueue queue, Answers answers,
      FeedThread taking) {}

  /**
   * A player.
   *
   * @param reacting takes outputs, where what is played reacts to them
   */
  Player(ReplaySetting setting, Ways ways, Optional<EventSink> reacting, WaitingNotice notice) {
    this.reacting = reacting;
    this.book = setting.book();
    this.payloads = new PayloadWriter(book, setting.bindings());
    this.pace = setting.pace();
    this.patience = setting.timeouts().answer();
    this.timeline = ways.timeline();
    this.queue = ways.queue();
    this.publisher = ways.publisher();
    this.answers = ways.answers();
    this.taking = ways.taking();
    this.clock = setting.clock();
    this.notice = notice;
    this.stop = setting.stop();
    this.sentValues = new long[book.signals().size()];
    Arrays.fill(sentValues, NOT_SENT);
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (!started) {
      start(time);
    }
    if (time > present) {
      comeTo(time);
    }
    TopicBinding binding = payloads.binding(signal);
    boolean input = book.signals().get(signal).direction() == Signal.Direction.INPUT;
    if (binding == null) {
      putOwn(signal, value, time);
    } else if (input) {
      send(signal, value, time);
      putOwn(signal, value, time);
    } else {
      replaced++;
    }
  }

  @Override
  public void advanceTo(long time) {
    if (started && time > present) {
      comeTo(time);
    }
  }

  private void start(long time) {
    started = true;
    present = time;
    timeline.start(time, clock.now() + LEAD);
    taking.begin();
    notice.begin();
    await(time);
  }

  /** All events of the present instant have come. */
  private void comeTo(long time) {
    if (pace.isStepped()) {
      if (reacting.isEmpty() || inputsSent > inputsAsked) {
        step(present);
      }
      if (reacting.isPresent()) {
        over(present);
      }
      timeline.playedUntil(present);
      stepOn(time);
    } else {
      timeline.playedUntil(time);
      await(time);
    }
    present = time;
    reacting.ifPresent(it -> answers.handTo(it, time));
  }

  /** All that happens at an instant itself is before the instant after it. */
  private void over(long time) {
    step(time + 1, time);
  }

  /** Steps in between, where a step may not be longer. */
  private void stepOn(long until) {
    for (long at = present + pace.longestStep(); at < until && at > present; at += pace.longestStep()) {
      step(at);
      timeline.playedUntil(at);
      present = at;
    }
  }

  private void await(long time) {
    next = time;
    check();
    while (!pace.isStepped() && clock.now() < timeline.due(time)) {
      rest(Math.min(LONGEST_WAIT, timeline.due(time) - clock.now()));
      check();
    }
  }

  /**
   * By how much rest takes longer than it should shows how long this machine keeps a thread waiting, those that time
   * answers too.
   */
  private void rest(long nanoseconds) {
    long until = clock.now() + nanoseconds;
    LockSupport.parkNanos(nanoseconds);
    longestStall = Math.max(longestStall, clock.now() - until);
  }

  private void check() {
    taking.check();
    publisher.requireAlone();
    if (!pace.isStepped() && started && answers.isSilent()) {
      notice.stillFor(() -> "nothing has come from a bench side, neither on the topics of outputs nor on "
          + HandShake.DONE_TOPIC
          + "; the replay goes on");
    }
    if (stop.getAsBoolean()) {
      throw new PlayStopped("stopped by request");
    }
    if (answers.occasions() > occasionsSeen) {
      occasionsSeen = answers.occasions();
      sayAgain();
    }
  }

  /**
   * After a gap, its own or the bench side's, the bench may not know what stands at its inputs: all that were sent are
   * sent once more.
   */
  private void sayAgain() {
    long now = now();
    for (int signal = 0; signal < sentValues.length; signal++) {
      if (sentValues[signal] != NOT_SENT) {
        publish(signal, sentValues[signal], present);
        putOwn(signal, sentValues[signal], now);
      }
    }
  }

  /** Has a value that no broker brings taken with what brokers bring. */
  private void putOwn(int signal, long value, long time) {
    queue.put(arrival -> new Inbound.Own(signal, value, time, arrival));
  }

  private void send(int signal, long value, long time) {
    inputs++;
    if (!pace.isStepped()) {
      lateness.add(clock.now() - timeline.due(time));
    }
    if (value == UNKNOWN) {
      unsaid++;
      return;
    }
    sentValues[signal] = value;
    publish(signal, value, time);
  }

  private void publish(int signal, long value, long time) {
    TopicBinding binding = payloads.binding(signal);
    Optional<byte[]> payload = binding.form().match(
        plain -> payloads.payload(signal, value, clock.now(), time),
        json -> payloads.payload(signal, value, clock.now(), time),
        metric -> Optional.of(payloads.text(signal, value)).filter(text -> !text.isEmpty()).map(text ->
            SparkplugCommand.payload(book.signals().get(signal), metric.metric(), text, clock.now())));
    if (payload.isEmpty()) {
      unsaid++;
      return;
    }
    publish(binding.topic(), payload.get(), time);
    inputsSent++;
  }

  /** Sends. While nothing can be sent the trace waits, so that what follows does not come all at once. */
  private void publish(String topic, byte[] payload, long time) {
    publisher.publish(topic, payload, time, () -> timeline.stop(now()));
    timeline.goOn(clock.now());
  }

  /** Trace time that it is; never past the next event. */
  private long now() {
    return pace.isStepped() ? present : Math.min(next, timeline.ofArrival(clock.now()));
  }

  /** One step of the hand-shake; after a lost connection, of either side, it is asked for again. */
  private void step(long time) {
    step(time, time);
  }

  /** One step after which nothing more belongs to the trace time {@code until} or before. */
  private void step(long time, long until) {
    check();
    inputsAsked = inputsSent;
    HandShake step = new HandShake(++steps, inputsSent, time);
    timeline.asks(until);
    answers.asking(step.number());
    notice.begin();
    publish(HandShake.STEP_TOPIC, step.bytes(), time);
    long deadline = clock.now() + patience.toNanos();
    while (!answers.await(step.number(), RETRY_MILLISECONDS, occasionsSeen)) {
      check();
      if (clock.now() > deadline) {
        throw new PlayStopped(unanswered(step));
      }
      notice.stillFor(() -> unanswered(step));
      publish(HandShake.STEP_TOPIC, new HandShake(step.number(), inputsSent, time).bytes(), time);
    }
  }

  private String unanswered(HandShake step) {
    return "no bench side answers step " + step.number() + " on " + HandShake.DONE_TOPIC + " (" + answers.state()
        + "); start it before the replay, whose inputs it needs from the first on, or choose another pace";
  }

  /** The trace ends here. */
  void end(long time, Duration tail) {
    if (!started) {
      throw new PlayStopped("the trace has no events");
    }
    if (pace.isStepped()) {
      step(present);
      timeline.playedUntil(present);
      stepOn(time);
      over(time);
      timeline.playedUntil(time);
    } else {
      timeline.playedUntil(time);
      await(time);
      long until = clock.now() + tail.toNanos();
      while (clock.now() < until) {
        rest(LONGEST_WAIT);
        check();
      }
    }
  }

  PaceQuality quality(long worstDelay, long clocks) {
    return new PaceQuality(inputs, lateness.quantile(0.5), lateness.quantile(0.99), lateness.greatest(), worstDelay,
        longestStall, clocks,
        timeline.untimed(), timeline.longestStep(), pace.factor());
  }

  long replaced() {
    return replaced;
  }

  long unsaid() {
    return unsaid;
  }
}
