/**
 * A rule said in other ways: in plain words, as a formula over dense time, with what it needs and when its verdict is
 * final. Uses {@code model} and {@code advice}.
 */
package dev.pawl.grammar.rules.explain;
