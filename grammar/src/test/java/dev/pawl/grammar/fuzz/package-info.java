/**
 * Fuzzing of both languages. Each {@code @FuzzTest} runs over its committed inputs and the repository's own texts by default, and guided by
 * coverage under the Maven profile {@code fuzz}; {@link dev.pawl.grammar.fuzz.GeneratedTextsTest} puts some thousand damaged texts to the
 * same oracles in every build.
 */
package dev.pawl.grammar.fuzz;
