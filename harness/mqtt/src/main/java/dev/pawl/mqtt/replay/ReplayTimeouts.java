package dev.pawl.mqtt.replay;

import java.time.Duration;

/**
 * How long a replay waits.
 *
 * @param listening before the first input, whether anybody else publishes to its topics
 * @param answer for the bench side's hand-shake
 * @param tail at the end of a paced replay, in which what comes is still taken; trace time beyond the end is not judged
 */
public record ReplayTimeouts(Duration listening, Duration answer, Duration tail) {}
