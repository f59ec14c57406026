/**
 * From the engine's listener and outcome to the result model: keeps the first findings of each rule, counts the rest,
 * and puts names, units and places in. Memory depends on the number of rules and zones, never on the trace.
 */
package dev.pawl.report.collect;
