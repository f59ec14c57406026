/**
 * Times as traces write them: RFC 3339 date-times, or plain numbers of a stated unit, into nanoseconds and back. Uses
 * only {@code bytes}.
 */
package dev.pawl.trace.time;
