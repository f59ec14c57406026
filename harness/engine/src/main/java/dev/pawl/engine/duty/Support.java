package dev.pawl.engine.duty;

import dev.pawl.engine.zone.ZoneNode;

/**
 * The signals and zones that an expression rests on.
 *
 * @param signals indices of signals
 * @param zones counts of zones
 */
public record Support(int[] signals, ZoneNode[] zones) {}
