/** Recorded sessions, judged one by one by workers, and merged into the report of each ride. */
package dev.pawl.fleet.archive;
