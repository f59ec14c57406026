/**
 * Time on a network: one monotonic clock for all that arrives, the offset of foreign clocks against it, the bounded
 * window in which events are put in order, and distributions of delays. Knows nothing of brokers.
 */
package dev.pawl.mqtt.time;
