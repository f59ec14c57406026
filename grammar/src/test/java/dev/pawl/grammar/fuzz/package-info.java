/**
 * Fuzzing of both languages. Each {@code @FuzzTest} runs over its committed inputs and the repository's own texts by
 * default, and guided by coverage under the Maven profile {@code fuzz}. The short run with texts damaged at random, the
 * same in every build, is in {@code MutatedRulesTest} and {@code MutationTest} beside the languages.
 */
package dev.pawl.grammar.fuzz;
