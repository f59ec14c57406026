package dev.pawl.grammar.rules.model;

import dev.pawl.grammar.source.Position;

/**
 * What a ride has to do, as those who ask for it say it; the rules that satisfy it name it.
 *
 * @param id its identifier, unique in the book
 * @param text what is required, for people
 * @param source where it is written down, or the empty string
 * @param hazard what it guards against, or the empty string
 * @param level the level required of what fulfils it, such as {@code SIL 2} or {@code PL d}, or the empty string
 * @param position where it is declared
 */
public record Requirement(String id, String text, String source, String hazard, String level, Position position) {}
