/** From the elements of an exchange format to declarations and drawn bodies. */
package dev.pawl.grammar.logic.drawn.intake;
