/**
 * The judges: one node per rule that raises obligations, follows them to their end, counts them, keeps the margin and
 * tells findings with their evidence. Waiting obligations sit in queues in the order of their deadlines.
 */
package dev.pawl.engine.judge;
