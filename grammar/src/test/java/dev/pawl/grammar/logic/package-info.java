/**
 * The Structured Text language from outside: what is refused, with which message, and that nothing makes it fail
 * otherwise.
 */
package dev.pawl.grammar.logic;
