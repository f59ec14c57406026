package dev.pawl.plant.ride;

import dev.pawl.plant.text.Word;

/**
 * A flag beside the track: true while a target of a train is beside it.
 *
 * @param signal that shows it
 * @param track 0 for the circuit, or the number of a siding
 * @param place metres along that
 * @param delay seconds by which it is late
 * @param filter seconds for which a change must last before it counts
 */
public record Flag(Word signal, int track, double place, double delay, double filter) {}
