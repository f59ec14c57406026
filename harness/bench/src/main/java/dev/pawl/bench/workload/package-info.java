/**
 * What all measurements run on: the trace as events in memory, and the rule books. Uses the grammar and the engine
 * only.
 */
package dev.pawl.bench.workload;
