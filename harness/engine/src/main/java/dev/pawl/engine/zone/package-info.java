/**
 * Occupancy, worked out from a zone's own flags: the counting, the following of two-flag boundaries, and the nodes that
 * show the count to rules. A count that cannot be right is told to the listener, never corrected in silence.
 */
package dev.pawl.engine.zone;
