package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.client.ConnectionSettings;
import java.time.Duration;
import java.util.Optional;

/**
 * How fast a trace is played.
 *
 * @param factor trace seconds in one second; 0 for as fast as possible, step by step
 * @param longestStep nanoseconds of trace time that a step may span at most
 */
public record Pace(double factor, long longestStep) {

  public static final Pace STEPPED = new Pace(0);

  private static final long ANY_LENGTH = Long.MAX_VALUE / 4;
  private static final String STEPPED_NAME = "as-fast-as-possible";
  private static final double GREATEST = 1000;
  private static final Duration KEPT_FOR = Duration.ofSeconds(60);

  /** A pace with steps of any length. */
  public Pace(double factor) {
    this(factor, ANY_LENGTH);
  }

  public Pace withLongestStep(long nanoseconds) {
    return new Pace(factor, nanoseconds);
  }

  /** Reads {@code 1x}, {@code 10x}, {@code 0.5x} or {@code as-fast-as-possible}; empty if it is none. */
  public static Optional<Pace> parse(String text) {
    if (text.equals(STEPPED_NAME)) {
      return Optional.of(STEPPED);
    }
    if (!text.matches("[0-9]{1,4}(\\.[0-9]{1,3})?x")) {
      return Optional.empty();
    }
    double factor = Double.parseDouble(text.substring(0, text.length() - 1));
    return factor > 0 && factor <= GREATEST ? Optional.of(new Pace(factor)) : Optional.empty();
  }

  public boolean isStepped() {
    return factor == 0;
  }

  /**
   * How to listen at this pace. Step by step no time depends on when a message arrives, so the broker may keep it over
   * a lost connection.
   */
  public ConnectionSettings listening(ConnectionSettings settings) {
    return isStepped() ? settings.withKeptFor(KEPT_FOR) : settings;
  }

  @Override
  public String toString() {
    return isStepped() ? STEPPED_NAME : (factor == Math.rint(factor) ? Long.toString((long) factor)
        : Double.toString(factor)) + "x";
  }
}
