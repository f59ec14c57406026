package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;

/**
 * A comment of a rule file.
 *
 * @param text with its two leading hyphens, without trailing blanks
 * @param alone whether nothing else stands on its line
 * @param position where it starts
 */
public record Comment(String text, boolean alone, Position position) {}
