/**
 * What an editor asks of rule files, by the Language Server Protocol: what is wrong, which names there are, what a rule
 * says in plain words, where a name is declared, the canonical layout. All of it comes from the grammar, as on the
 * command line; LSP4J carries the messages.
 */
package dev.pawl.editor;
