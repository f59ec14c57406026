/**
 * The Structured Text language of IEC 61131-3: {@link LogicLanguage} is the way in. Uses {@code source} and its own
 * stages below.
 */
package dev.pawl.grammar.logic;
