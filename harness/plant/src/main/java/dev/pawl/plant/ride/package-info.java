/** A ride as its user describes it: read from text, checked against the signals that rules declare, and built. */
package dev.pawl.plant.ride;
