package dev.pawl.mqtt.binding;

import dev.pawl.grammar.source.Position;
import dev.pawl.trace.bindings.Conversion;

/**
 * The place of a signal on a broker.
 *
 * @param signal index of the signal in the rule book
 * @param topic topic name; for Sparkplug the topic by which a host writes it
 * @param form how messages carry it
 * @param conversion what is done to its values
 * @param position where it is bound
 */
public record TopicBinding(int signal, String topic, PayloadForm form, Conversion conversion, Position position) {}
