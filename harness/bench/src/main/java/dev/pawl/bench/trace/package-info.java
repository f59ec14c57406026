/** Traces to measure with, made from a seed, and the measurement of the readers alone. */
package dev.pawl.bench.trace;
