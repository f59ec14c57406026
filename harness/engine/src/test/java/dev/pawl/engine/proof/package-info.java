/**
 * The proof that the engine means what {@code grammar/MEANING.md} says: random rules and traces judged by the engine
 * and by the reference evaluator, pattern formulas judged by a logic evaluator, long traces judged in SQL, and the
 * engine against itself under every way of feeding it.
 */
package dev.pawl.engine.proof;
