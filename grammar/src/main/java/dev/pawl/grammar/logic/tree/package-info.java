/**
 * The syntax tree of a Structured Text source: what was written, with places, and nothing yet looked up. Uses only
 * {@code source}.
 */
package dev.pawl.grammar.logic.tree;
