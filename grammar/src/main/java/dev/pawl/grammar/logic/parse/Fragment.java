package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.source.Position;

/**
 * A piece of Structured Text that stands within something else.
 *
 * @param start where its first character stands
 */
public record Fragment(String text, Position start) {}
