package dev.pawl.plant.text;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.source.Position;

/**
 * A number with its unit.
 *
 * @param si in SI base units; of a difference, where the unit counts from a zero of its own
 * @param dimension what kind of quantity it is
 * @param position where it stands
 */
public record Amount(double si, Dimension dimension, Position position) {}
