/** Syntax tree back to text, with no more parentheses than are needed. Uses {@code tree}. */
package dev.pawl.grammar.rules.print;
