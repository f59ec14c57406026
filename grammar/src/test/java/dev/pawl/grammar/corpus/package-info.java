/** Texts of both languages in files, each beside the text that it is to give. */
package dev.pawl.grammar.corpus;
