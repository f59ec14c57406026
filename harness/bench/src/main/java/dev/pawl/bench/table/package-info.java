/**
 * The one command that prints the whole table: starts every program that is measured as a process of its own, compares
 * their counts, and prints times, rates and peak memory side by side.
 */
package dev.pawl.bench.table;
