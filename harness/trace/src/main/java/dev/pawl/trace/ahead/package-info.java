/**
 * Decoding ahead: events are made on one thread and judged on another, handed over in batches of primitive arrays. The
 * order, and so every verdict, is the same as on one thread. Several traces can be merged by time in the same way.
 */
package dev.pawl.trace.ahead;
