/**
 * A described ride in motion: what a controller commands moves it, its sensors report, people and faults do what a
 * scenario says, and what truly happened is told beside. Deterministic: the same call gives the same.
 */
package dev.pawl.plant.loop;
