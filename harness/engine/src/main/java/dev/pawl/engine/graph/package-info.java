/**
 * The dataflow graph: nodes in topological order, the marks that say which of them to evaluate, and the timers that
 * wake them between events. Time is in moments (twice the nanoseconds; an odd moment is the open interval after a
 * nanosecond). Knows nothing of rules.
 */
package dev.pawl.engine.graph;
