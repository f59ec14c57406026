/**
 * Two versions of a program: which lines changed, whether each of them ever ran, and whether what it came to ever
 * differed. Uses the files of a program and what its scans show.
 */
package dev.pawl.run.change;
