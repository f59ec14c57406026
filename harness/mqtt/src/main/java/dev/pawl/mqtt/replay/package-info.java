/**
 * Playing a recorded day to logic behind a broker: the trace's inputs go out at their pace, what the logic answers
 * comes back, and both make one stream in the trace's own time.
 */
package dev.pawl.mqtt.replay;
