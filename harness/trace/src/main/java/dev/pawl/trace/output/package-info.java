/**
 * What trace writers share: engine values as the text that reads back to the same engine value, and bytes on their way
 * out.
 */
package dev.pawl.trace.output;
