package dev.pawl.run.stress;

import dev.pawl.plant.loop.Truth;

/** A run that showed a hazard, which is to be made small. */
public record Shown(Trial trial, Truth.Kind kind, boolean noticed) {}
