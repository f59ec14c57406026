/**
 * Scans per second of the demo's controller in Structured Text beside the same equations written by hand, and the time
 * to check a program.
 */
package dev.pawl.bench.logic;
