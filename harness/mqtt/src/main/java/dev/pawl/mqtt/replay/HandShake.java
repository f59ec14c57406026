package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.client.Inbound;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * The hand-shake of a step-by-step replay. The harness sends the inputs of one instant, then the step's number, how many inputs it has sent in
 * all, and the instant; the bench side waits until it has that many, runs up to the instant, takes the inputs, and answers with the number and
 * how many outputs it has sent in all. Counts, not the order of messages, say what is complete: order holds on one topic only.
 *
 * <p>Both are plain text, numbers with a blank between, so that a bench side of MQTT 3.1.1 can read and write them. Step 1 begins a replay:
 * counts begin anew, and the logic is as after power-up.
 *
 * @param number number of the step, from 1
 * @param sent messages that the sender has sent before, on all other topics
 * @param time nanoseconds, the instant of the step; {@link Inbound#NO_NUMBER} in answers
 */
public record HandShake(long number, long sent, long time) {

  public static final String STEP_TOPIC = "pawl/step";
  public static final String DONE_TOPIC = "pawl/done";

  private static final String FORM = "[0-9]{1,18} [0-9]{1,18}( -?[0-9]{1,19})?";

  /** An answer. */
  public HandShake(long number, long sent) {
    this(number, sent, Inbound.NO_NUMBER);
  }

  /** The payload. */
  public byte[] bytes() {
    return (number + " " + sent + (time == Inbound.NO_NUMBER ? "" : " " + time)).getBytes(StandardCharsets.US_ASCII);
  }

  /** What a payload says; empty if it is none. */
  public static Optional<HandShake> parse(byte[] payload) {
    String text = new String(payload, StandardCharsets.US_ASCII).strip();
    if (!text.matches(FORM)) {
      return Optional.empty();
    }
    String[] parts = text.split(" ");
    try {
      return Optional.of(new HandShake(Long.parseLong(parts[0]), Long.parseLong(parts[1]),
          parts.length > 2 ? Long.parseLong(parts[2]) : Inbound.NO_NUMBER));
    } catch (NumberFormatException e) {
      return Optional.empty();
    }
  }
}
