/**
 * The rule language. {@link dev.pawl.grammar.rules.RuleLanguage} takes rule files the whole way: text, syntax tree,
 * checked rule book; each stage is a package. Reads no file itself.
 */
package dev.pawl.grammar.rules;
