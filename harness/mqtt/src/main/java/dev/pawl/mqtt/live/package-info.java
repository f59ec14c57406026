/**
 * Watching and recording a live ride. Nothing here can publish, but for the {@link VerdictPublisher}, which is a
 * connection of its own that someone must ask for, and which can send under its {@link VerdictTopics} only.
 */
package dev.pawl.mqtt.live;
