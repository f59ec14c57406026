/** The sources there are: a recorded trace, and a ride in motion. */
package dev.pawl.run.source;
