package dev.pawl.mqtt.replay;

import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * The hand-shake of a step-by-step replay. The harness sends the inputs of one instant, then the step's number and how many inputs it has
 * sent in all; the bench side waits until it has that many, runs up to the instant, takes the inputs, and answers with the number and how
 * many outputs it has sent in all. Counts, not the order of messages, say what is complete: order holds on one topic only.
 *
 * @param number number of the step, from 1
 * @param sent messages that the sender has sent before, on all other topics
 */
public record HandShake(long number, long sent) {

  public static final String STEP_TOPIC = "pawl/step";
  public static final String DONE_TOPIC = "pawl/done";

  /** The payload. */
  public byte[] bytes() {
    return (number + " " + sent).getBytes(StandardCharsets.US_ASCII);
  }

  /** What a payload says; empty if it is none. */
  public static Optional<HandShake> parse(byte[] payload) {
    String text = new String(payload, StandardCharsets.US_ASCII);
    if (!text.matches("[0-9]{1,18} [0-9]{1,18}")) {
      return Optional.empty();
    }
    int space = text.indexOf(' ');
    return Optional.of(new HandShake(Long.parseLong(text.substring(0, space)), Long.parseLong(text.substring(space + 1))));
  }
}
