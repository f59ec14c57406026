/**
 * Texts, places in them, and what is wrong there: shared by both languages and by bindings files. Uses nothing else.
 */
package dev.pawl.grammar.source;
