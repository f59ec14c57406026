/**
 * Bytes in blocks, and what can be found in them eight at a time: line breaks, separators, digits, decimal numbers,
 * known names. Knows nothing of traces. Everything here is little-endian by construction, whatever the machine is.
 */
package dev.pawl.trace.bytes;
