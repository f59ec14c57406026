/**
 * How good the evidence is: everything on the way from a broker to the engine that may make a value or its time
 * doubtful is counted here and shown beside the verdicts. Nothing of it changes a verdict in silence.
 */
package dev.pawl.mqtt.evidence;
