/**
 * Comma-separated traces after RFC 4180, in and out: the long form, one event in a row, and the wide form, one signal
 * in a column. Lines that start with {@code #} are remarks; {@code # end: TIME} states when the trace ends.
 */
package dev.pawl.trace.csv;
