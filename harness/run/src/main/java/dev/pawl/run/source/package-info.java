/** The sources there are: recorded traces. Others implement {@link dev.pawl.run.EventSource}. */
package dev.pawl.run.source;
