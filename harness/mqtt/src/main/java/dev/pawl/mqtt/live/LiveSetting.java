package dev.pawl.mqtt.live;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.time.HarnessClock;

/**
 * What is listened to.
 *
 * @param book the rule book, which declares the signals
 * @param bindings the places of signals
 */
public record LiveSetting(RuleBook book, TopicBindings bindings, LiveOptions options, HarnessClock clock) {}
