/**
 * Names, types and constants of Structured Text: syntax tree to {@code model}, or diagnostics. {@link ProgramChecker}
 * is the way in. Uses {@code source}, {@code tree} and {@code model}.
 */
package dev.pawl.grammar.logic.check;
