package dev.pawl.mqtt.replay;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.time.HarnessClock;
import java.util.function.BooleanSupplier;

/**
 * What all replays of a session have in common.
 *
 * @param book the rule book, which declares the signals
 * @param bindings the places of signals
 * @param stop whether somebody wants the replay to end
 */
public record ReplaySetting(RuleBook book, TopicBindings bindings, Pace pace, ReplayTimeouts timeouts,
    HarnessClock clock, BooleanSupplier stop) {}
