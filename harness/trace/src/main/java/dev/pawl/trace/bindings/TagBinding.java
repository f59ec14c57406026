package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Position;

/**
 * A site tag that carries a signal.
 *
 * @param tag its name in the trace
 * @param signal index of the signal in the rule book
 * @param conversion what is done to its values
 * @param position where it is bound
 */
public record TagBinding(String tag, int signal, Conversion conversion, Position position) {}
