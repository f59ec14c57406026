/**
 * A fleet: more sessions, or more runs of a campaign, than one machine should judge. Numbered tasks are done by workers
 * of Apache Flink, each by the library of {@code run} alone, and what they come to is merged in the order of the
 * numbers, so that it is to the byte what one machine says.
 *
 * <p>An artifact of its own: nobody else installs Flink.
 */
package dev.pawl.fleet;
