/**
 * Payloads into readings of signals and back: plain text, JSON at pointers. What cannot be read is told, never guessed.
 * Uses the value readers and writers of the trace module, so that a value means the same on a topic as in a file.
 */
package dev.pawl.mqtt.payload;
