/**
 * Logic under test, in process: runs a checked Structured Text program scan by scan in virtual time, between the events
 * of a trace and the judge. {@link LogicHarness} is the way in for traces, {@link ScanMachine} for a program alone. No
 * clock, no files, no threads.
 */
package dev.pawl.logic;
