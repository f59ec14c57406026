/**
 * A small page that shows a live run in a browser on the same machine: a small server on loopback that bounds what its
 * visitors can cost, server-sent events, no script from elsewhere. Everything that came from outside is put in as text.
 */
package dev.pawl.mqtt.page;
