package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.feed.FeedListener;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/** What has come back from the bench side; written on the feed's thread, waited for on the player's. */
final class Answers implements FeedListener {

  private final Consumer<Inbound> inputsLost;
  private HandShake last = HandShake.answer(0, 0);
  private String benchRun = "";
  private long all;
  private long taken;
  private long takenBeforeGap;
  private boolean gapUnsettled;
  private boolean down;
  private long occasions;

  /**
   * Answers of one bench side.
   *
   * @param inputsLost is told of what the bench side says when it has lost inputs, on the feed's thread
   */
  Answers(Consumer<Inbound> inputsLost) {
    this.inputsLost = inputsLost;
  }

  @Override
  public synchronized void news(Inbound.Kind kind, String detail, long arrival) {
    if (kind == Inbound.Kind.CONNECTED) {
      occasions++;
      gapUnsettled = down;
    }
    down = kind == Inbound.Kind.LOST;
    notifyAll();
  }

  @Override
  public synchronized void taken(Inbound message) {
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
  public synchronized boolean other(Inbound message) {
    if (!message.topic().equals(HandShake.DONE_TOPIC)) {
      return false;
    }
    HandShake.parse(message.payload()).ifPresent(done -> {
      if (done.again()) {
        occasions++;
        inputsLost.accept(message);
      } else {
        last = done;
      }
    });
    notifyAll();
    return true;
  }

  /** Messages on the topics of outputs that the bench side does not count: somebody else sent them, or they came twice. */
  synchronized long strangers() {
    return last.number() == 0 ? 0 : Math.max(0, all - last.sent());
  }

  /** How often there was a reason to say all inputs: the listening connection came up, or the bench side had lost some. */
  synchronized long occasions() {
    return occasions;
  }

  /** What has come so far, for a message. */
  synchronized String state() {
    return last.number() == 0 ? "nothing has come from there" : "the last answer was to step " + last.number() + "; of "
        + last.sent() + " outputs that it counts, " + (taken + takenBeforeGap) + " have come";
  }

  /**
   * Waits for the answer to a step, and for all outputs that it counts; after a gap those that were lost in it are not waited for.
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
