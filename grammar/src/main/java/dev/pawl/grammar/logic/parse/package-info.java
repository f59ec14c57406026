/**
 * Structured Text source to syntax tree. {@link SourceParser} is the only way in; the generated parser and every ANTLR
 * type stay behind it. Uses {@code source} and {@code tree}.
 */
package dev.pawl.grammar.logic.parse;
