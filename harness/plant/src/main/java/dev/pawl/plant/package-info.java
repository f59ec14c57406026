/**
 * Trains on a track: distributed-mass trains under gravity, rolling resistance and air drag, with friction brakes,
 * drive tyres, a chain lift and its anti-rollback. Deterministic, in SI units, without a clock; {@code layout} reads a
 * ride's description.
 */
package dev.pawl.plant;
