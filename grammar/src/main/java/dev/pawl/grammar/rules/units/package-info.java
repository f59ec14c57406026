/**
 * The units a rule file may write, as factors to SI base units. JSR 385 quantities, with Indriya behind, are used here
 * and nowhere else, and only while rules are compiled. Uses {@code model} for dimensions.
 */
package dev.pawl.grammar.rules.units;
