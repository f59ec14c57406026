/**
 * The canonical layout of rule files. {@link dev.pawl.grammar.rules.format.RuleFormatter} reads a file, lays out its
 * tree in rows, gives every comment to a row, and writes the rows; nothing but blanks and line breaks changes. Uses
 * {@code parse}, {@code tree} and {@code print}.
 */
package dev.pawl.grammar.rules.format;
