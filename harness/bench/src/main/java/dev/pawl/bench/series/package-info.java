/**
 * How time grows: against rows, rules, length of a window, and obligations that are open at once. Over events in
 * memory, in one process.
 */
package dev.pawl.bench.series;
