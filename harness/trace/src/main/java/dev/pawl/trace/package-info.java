/**
 * Recorded traces: read in any of their formats as one stream of events, and written. The way in is {@link
 * dev.pawl.trace.Traces}; formats have a package each ({@code csv}, {@code json}, {@code vcd}) over {@code intake},
 * which is where rows become events, and {@code bytes} and {@code time} below it. {@code bindings} maps a site's tags
 * to signals.
 */
package dev.pawl.trace;
