/**
 * Watching and recording a live ride. Nothing here can publish, but for the {@link VerdictPublisher}, which is a connection of its own that
 * someone must ask for, and which cannot send to any topic that a signal is bound to.
 */
package dev.pawl.mqtt.live;
