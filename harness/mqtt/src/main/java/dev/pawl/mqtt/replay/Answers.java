package dev.pawl.mqtt.replay;

import dev.pawl.engine.EventSink;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.feed.FeedListener;
import dev.pawl.mqtt.payload.Excerpts;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What has come back from the bench side; written on the feed's thread, waited for on the player's. */
final class Answers implements FeedListener {

  private final Consumer<Inbound.Message> inputsLost;
  private final boolean kept;
  private HandShake last = HandShake.answer(0, 0);
  private long asked;
  private long askedForAll;
  private String wrong = "";
  private String benchRun = "";
  private long all;
  private long taken;
  private long takenBeforeGap;
  private boolean gapUnsettled;
  private boolean down;
  private long occasions;
  /** Outputs for whatever reacts to them. */
  private final List<Output> outputs = new ArrayList<>();

  private record Output(int signal, long value) {}

  /**
   * Answers of one bench side.
   *
   * @param inputsLost is told of what the bench side says when it has lost inputs, on the feed's thread
   * @param kept whether outputs are kept until they are asked for
   */
  Answers(Consumer<Inbound.Message> inputsLost, boolean kept) {
    this.inputsLost = inputsLost;
    this.kept = kept;
  }

  @Override
  public synchronized void news(Inbound.News news) {
    if (news instanceof Inbound.Connected) {
      occasions++;
      gapUnsettled = down;
    }
    down = news instanceof Inbound.Lost;
    notifyAll();
  }

  @Override
  public synchronized void heard(int signal, long value) {
    if (kept) {
      outputs.add(new Output(signal, value));
    }
  }

  /** Hands on the outputs that have come since, in their order. */
  synchronized void handTo(EventSink taker, long time) {
    outputs.forEach(it -> taker.event(time, it.signal(), it.value(), 0));
    outputs.clear();
  }

  @Override
  public synchronized void taken(Inbound.Message message) {
    if (message.topic().equals(HandShake.DONE_TOPIC) || message.retained()) {
      return;
    }
    all++;
    if (message.stamp().isNumbered() && !message.stamp().run().equals(benchRun)) {
      benchRun = message.stamp().run();
      taken = 0;
    }
    if (message.stamp().isNumbered() || benchRun.isEmpty()) {
      taken++;
      notifyAll();
    }
  }

  @Override
  public synchronized boolean other(Inbound.Message message) {
    if (!message.topic().equals(HandShake.DONE_TOPIC)) {
      return false;
    }
    Optional<HandShake> done = HandShake.parse(message.payload());
    if (message.retained()) {
      wrong = shown(message) + ", which the broker had kept from earlier";
    } else if (done.isEmpty()) {
      wrong = shown(message) + ", which is not of the form NUMBER COUNT";
    } else if (done.get().again()) {
      occasions++;
      askedForAll++;
      inputsLost.accept(message);
    } else if (done.get().number() > asked) {
      wrong = shown(message) + ", which answers a step that was not asked for";
    } else {
      last = done.get();
      wrong = "";
    }
    notifyAll();
    return true;
  }

  private static String shown(Inbound.Message message) {
    return Excerpts.of(new String(message.payload(), StandardCharsets.UTF_8));
  }

  /** From now on this step, and none after it, can be answered. */
  synchronized void asking(long number) {
    asked = number;
  }

  /** Whether nothing at all has come from the bench side. */
  synchronized boolean isSilent() {
    return all == 0 && last.number() == 0 && askedForAll == 0 && wrong.isEmpty();
  }

  /**
   * Messages on the topics of outputs that the bench side does not count: somebody else sent them, or they came twice.
   */
  synchronized long strangers() {
    return last.number() == 0 ? 0 : Math.max(0, all - last.sent());
  }

  /**
   * How often there was a reason to say all inputs: the listening connection came up, or the bench side had lost some.
   */
  synchronized long occasions() {
    return occasions;
  }

  /** What has come so far, for a message. */
  synchronized String state() {
    String answered = last.number() == 0 ? "" : "the last answer was to step " + last.number() + "; of " + last.sent()
        + " outputs that it counts, " + (taken + takenBeforeGap) + " have come";
    String instead = wrong.isEmpty() ? "" : "what came instead was " + wrong;
    String again = askedForAll == 0 ? "" : "it asks for all inputs again";
    String state = Stream.of(answered, instead, again).filter(part -> !part.isEmpty())
        .collect(Collectors.joining("; "));
    return state.isEmpty() ? "nothing has come from there" : state;
  }

  /**
   * Waits for the answer to a step, and for all outputs that it counts; after a gap those that were lost in it are not
   * waited for.
   *
   * @param known how many occasions to say all inputs are known; another one ends waiting
   * @return whether the answer came
   */
  synchronized boolean await(long number, long milliseconds, long known) {
    long deadline = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(milliseconds);
    while (last.number() < number || taken + takenBeforeGap < last.sent() && !lostSome()) {
      long left = TimeUnit.NANOSECONDS.toMillis(deadline - System.nanoTime());
      if (left <= 0 || occasions > known) {
        return false;
      }
      try {
        wait(left);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return false;
      }
    }
    return true;
  }

  /** Whether a gap has swallowed outputs; from now on only later ones are counted. */
  private boolean lostSome() {
    if (!gapUnsettled || down) {
      return false;
    }
    gapUnsettled = false;
    takenBeforeGap = last.sent() - taken;
    return true;
  }
}
