/**
 * Logic that was drawn rather than written: ladder diagrams, function block diagrams and sequential function charts in
 * the open exchange formats. XML becomes a tree of elements and their connections ({@code xml}, {@code intake},
 * {@code tree}), that becomes the statements of Structured Text that mean the same ({@code network}, {@code chart}),
 * and the rest is one checker, one model and one compiler for all. A statement's place is its element's place in the
 * XML.
 */
package dev.pawl.grammar.logic.drawn;
