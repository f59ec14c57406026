package dev.pawl.mqtt.live;

import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.binding.TopicName;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.replay.HandShake;
import dev.pawl.mqtt.station.Station;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The topics that verdicts go to: all under one prefix, which lies neither above nor below any topic that a signal is
 * bound to, that a bench uses, or that belongs to a broker.
 *
 * @param prefix what they all begin with, without a slash at the end
 */
public record VerdictTopics(String prefix) {

  /** What {@code replay} and {@code serve} publish to without bindings; a controller on the bench may listen there. */
  private static final String BENCH = TopicBindings.BENCH_PREFIX;
  private static final List<String> TAKEN = List.of(BenchGuard.TOPIC, HandShake.STEP_TOPIC, HandShake.DONE_TOPIC,
      Station.WILL_TOPIC, BENCH);
  /**
   * First levels of topics by which Sparkplug hosts and nodes command each other (from memory: versions 2.2 and 3.0).
   */
  private static final List<String> SPARKPLUG = List.of("spAv1.0", "spBv1.0", "STATE");
  private static final int LONGEST = 1000;

  /**
   * Takes a prefix.
   *
   * @throws ConnectionTrouble if a verdict under it could reach somebody who takes it for something else
   */
  public static VerdictTopics under(String prefix, TopicBindings bindings) {
    if (!isSound(prefix)) {
      throw new ConnectionTrouble("'" + shown(prefix)
          + "' is no beginning of a topic for verdicts; it is not empty, begins with no $, ends"
          + " with no slash, has neither + nor # nor a character that cannot be seen, and has at most " + LONGEST
          + " bytes");
    }
    Optional<String> taken = Stream.concat(bindings.filters().stream(),
        Stream.concat(TAKEN.stream(), SPARKPLUG.stream()))
        .filter(other -> isAboveOrBelow(prefix, other)).findFirst();
    if (taken.isPresent()) {
      throw new ConnectionTrouble("verdicts cannot go under '" + prefix + "': it lies above, below or at " + taken.get()
          + ", and watching must not be able to touch that; choose another prefix, such as 'verdicts'");
    }
    return new VerdictTopics(prefix);
  }

  private static boolean isSound(String prefix) {
    return TopicName.problem(prefix).isEmpty() && !prefix.startsWith("$") && !prefix.endsWith("/")
        && prefix.getBytes(StandardCharsets.UTF_8).length <= LONGEST;
  }

  private static String shown(String prefix) {
    String text = prefix.replaceAll("\\p{Cntrl}|\\p{Cs}", "?");
    return text.length() <= 60 ? text : text.substring(0, 60) + "...";
  }

  /** Whether the one begins with all levels of the other, where a wildcard stands for any. */
  private static boolean isAboveOrBelow(String prefix, String filter) {
    String[] here = prefix.split("/", -1);
    String[] there = filter.split("/", -1);
    for (int level = 0; level < Math.min(here.length, there.length); level++) {
      if (!there[level].equals("+") && !there[level].equals("#") && !there[level].equals(here[level])) {
        return false;
      }
    }
    return true;
  }

  /** Why nothing of this is published on the topic; empty if it may be. */
  Optional<String> refusal(String topic) {
    return topic.startsWith(prefix + "/") ? Optional.empty()
        : Optional.of("verdicts are published under " + prefix + " only");
  }

  String of(String what) {
    return prefix + "/" + what;
  }
}
