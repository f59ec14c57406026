package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.client.Inbound;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * The hand-shake of a step-by-step replay. The harness sends the inputs of one instant, then the step's number, how
 * many inputs it has sent in all, and the instant; the bench side waits until it has that many, runs up to the instant,
 * takes the inputs, and answers with the number and how many outputs it has sent in all. Counts, not the order of
 * messages, say what is complete: order holds on one topic only.
 *
 * <p>Both are plain text, numbers with a blank between, so that a bench side of MQTT 3.1.1 can read and write them.
 * Step 1 begins a replay: counts begin anew, and the logic is as after power-up.
 *
 * <p>A bench side whose connection was made anew cannot know which inputs it has missed. Where a step counts more than
 * have come, it does not take it: it answers with the step's number, its count of outputs and the word {@code again},
 * and from then on takes those that were counted as come. The harness sends all inputs once more, and asks for the step
 * anew with a higher count; a step without one was asked for before it had that answer, and gets it again. At a pace,
 * where there are no steps, the number is 0.
 *
 * @param number number of the step, from 1
 * @param sent messages that the sender has sent before, on all other topics
 * @param time nanoseconds, the instant of the step; {@link Inbound#NO_NUMBER} in answers
 * @param again whether this is no answer yet, because inputs were lost
 */
public record HandShake(long number, long sent, long time, boolean again) {

  public static final String STEP_TOPIC = "pawl/step";
  public static final String DONE_TOPIC = "pawl/done";

  private static final String AGAIN = " again";
  private static final String FORM = "[0-9]{1,18} [0-9]{1,18}( -?[0-9]{1,19}|" + AGAIN + ")?";

  /** A step. */
  public HandShake(long number, long sent, long time) {
    this(number, sent, time, false);
  }

  /** An answer. */
  public static HandShake answer(long number, long sent) {
    return new HandShake(number, sent, Inbound.NO_NUMBER, false);
  }

  /** The answer to a step whose inputs were lost. */
  public static HandShake again(long number, long sent) {
    return new HandShake(number, sent, Inbound.NO_NUMBER, true);
  }

  /** The payload. */
  public byte[] bytes() {
    String third = again ? AGAIN : time == Inbound.NO_NUMBER ? "" : " " + time;
    return (number + " " + sent + third).getBytes(StandardCharsets.US_ASCII);
  }

  /** What a payload says; empty if it is none. */
  public static Optional<HandShake> parse(byte[] payload) {
    String text = new String(payload, StandardCharsets.US_ASCII).strip();
    if (!text.matches(FORM)) {
      return Optional.empty();
    }
    boolean again = text.endsWith(AGAIN);
    String[] parts = text.split(" ");
    try {
      return Optional.of(new HandShake(Long.parseLong(parts[0]), Long.parseLong(parts[1]),
          parts.length > 2 && !again ? Long.parseLong(parts[2]) : Inbound.NO_NUMBER, again));
    } catch (NumberFormatException e) {
      return Optional.empty();
    }
  }
}
