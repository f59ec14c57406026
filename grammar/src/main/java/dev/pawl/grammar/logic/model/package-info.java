/**
 * A checked Structured Text program, ready to be compiled: every name is an address, every conversion is explicit,
 * every type is known. Memory is one row of slots; a slot holds a 64-bit word or a string. Uses only {@code source}.
 */
package dev.pawl.grammar.logic.model;
