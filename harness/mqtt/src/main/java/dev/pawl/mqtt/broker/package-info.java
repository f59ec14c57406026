/**
 * The embedded broker, so that a bench without one needs nothing else: an address to connect to, where the broker's own
 * artifact is there.
 */
package dev.pawl.mqtt.broker;
