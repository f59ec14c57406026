/**
 * An independent evaluator of rules, written from {@code grammar/MEANING.md} and {@code NEAR-MISSES.md} alone: it tabulates every expression at
 * every moment of a short trace and then reads each obligation off the tables. Slow, obvious, and sharing no code with
 * the engine but the records in which both report.
 */
package dev.pawl.engine.reference;
