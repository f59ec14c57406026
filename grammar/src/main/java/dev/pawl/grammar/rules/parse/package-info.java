/**
 * Text to syntax tree. The parser that ANTLR generates from {@code Rules.g4} stays behind {@link
 * dev.pawl.grammar.rules.parse.RuleReader}; nothing outside this package sees an ANTLR type. Uses {@code source} and
 * {@code tree}.
 */
package dev.pawl.grammar.rules.parse;
