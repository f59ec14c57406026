/**
 * Value change dumps, IEEE Std 1364 (clause 18 of the 2005 edition, from memory), so that simulators' dumps can be
 * checked. The last time mark is the trace's stated end.
 */
package dev.pawl.trace.vcd;
