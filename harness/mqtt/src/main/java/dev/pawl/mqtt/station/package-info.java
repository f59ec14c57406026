/**
 * The bench side: logic in this process served over a broker, for the demo and for trying out a bench's wiring. It
 * answers to inputs as a controller behind a gateway would, and to the hand-shake of a step-by-step replay.
 */
package dev.pawl.mqtt.station;
