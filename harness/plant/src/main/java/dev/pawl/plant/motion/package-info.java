/**
 * Trains on a track, moved by physics from event to event: between two events a train's place is a polynomial of time,
 * as
 * exact as numbers allow. Knows no ride, no signal and no scan.
 */
package dev.pawl.plant.motion;
