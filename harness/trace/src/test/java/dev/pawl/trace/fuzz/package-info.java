/**
 * Fuzzing of the trace readers and of bindings files. Each {@code @FuzzTest} runs over its committed inputs by default,
 * and guided by coverage under the Maven profile {@code fuzz}; {@link dev.pawl.trace.fuzz.GeneratedTracesTest} puts
 * five thousand damaged inputs to the same oracles in every build.
 */
package dev.pawl.trace.fuzz;
