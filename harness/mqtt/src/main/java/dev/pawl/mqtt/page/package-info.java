/**
 * A small page that shows a live run in a browser on the same machine: the JDK's own server on loopback, server-sent events, no script from
 * elsewhere. Everything that came from outside is put in as text.
 */
package dev.pawl.mqtt.page;
