package dev.pawl.engine.judge;

import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.zone.ZoneNode;

/**
 * The signals and zones that an expression rests on.
 *
 * @param signals the signals
 * @param zones counts of zones
 */
public record EvidenceSignals(SignalState[] signals, ZoneNode[] zones) {}
