package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;

/**
 * A word with its place: a name, a unit, or the text between two quotes.
 *
 * @param text without quotes
 * @param position where it stands
 */
public record Name(String text, Position position) {}
