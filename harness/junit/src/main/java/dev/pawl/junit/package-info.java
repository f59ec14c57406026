/**
 * Rules as JUnit tests in a build of somebody else: one annotation, by the library of {@link dev.pawl.run}. JUNIT.md
 * says how it is used.
 */
package dev.pawl.junit;
