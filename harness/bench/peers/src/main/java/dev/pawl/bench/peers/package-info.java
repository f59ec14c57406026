/**
 * The same rules in foreign libraries: SQL in DuckDB and statements in Esper. Each is a program of its own that prints
 * its counts and times; none of Pawl's code is used.
 */
package dev.pawl.bench.peers;
