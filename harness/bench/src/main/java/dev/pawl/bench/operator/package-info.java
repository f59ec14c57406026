/**
 * JMH benchmarks of the engine: each operator and form by itself, and the whole rule books, with what they allocate per
 * event.
 */
package dev.pawl.bench.operator;
