/**
 * Syntax tree to rule book: names, types and units are resolved here, definitions put in place of their names, and everything that is wrong
 * is collected. Uses {@code tree}, {@code model}, {@code units} and {@code print}.
 */
package dev.pawl.grammar.rules.check;
