package dev.pawl.run.control;

import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.time.HarnessClock;
import java.util.function.Supplier;

/**
 * A bench behind a broker.
 *
 * @param settings how to connect
 * @param topics the places of signals
 * @param permit opens the permit to publish, without which nothing is sent
 * @param clock this machine's
 */
public record Bench(ConnectionSettings settings, TopicBindings topics, Supplier<BenchGuard> permit,
    HarnessClock clock) {}
