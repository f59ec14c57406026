/** Scenarios and the people at the desk: read from text, and what they do scan by scan. */
package dev.pawl.plant.scenario;
