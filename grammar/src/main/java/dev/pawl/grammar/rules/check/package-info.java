/**
 * Syntax tree to rule book: names, types and units are resolved here, definitions put in place of their names, and
 * everything that is wrong is collected. Uses {@code tree}, {@code model}, {@code units}, {@code print} and
 * {@code advice}.
 */
package dev.pawl.grammar.rules.check;
