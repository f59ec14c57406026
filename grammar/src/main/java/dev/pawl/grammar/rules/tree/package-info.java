/**
 * The syntax tree of a rule file: what was written, with the place of everything, before any name, type or unit is
 * looked at. Immutable records; uses only {@code source}.
 */
package dev.pawl.grammar.rules.tree;
