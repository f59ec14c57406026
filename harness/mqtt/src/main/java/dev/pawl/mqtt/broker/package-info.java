/**
 * The broker that comes with the harness, so that a demo or a bench without one needs nothing else.
 *
 * <p>Why HiveMQ Community Edition embedded 2025.5 and not Moquette 0.17: Moquette's jars are 7 MB against 100 MB and it starts in 0.25 s
 * against 1.3 s, with 6 MB of heap against 13 MB, but version 0.17 answers an MQTT 5 client with "unsupported protocol version"; HiveMQ
 * passed user properties, expiry of retained messages, no-local and receive maximum (measured with the probe that is now this module's
 * broker test). Its jars lie on the class path but none of its classes is loaded before a broker is started.
 */
package dev.pawl.mqtt.broker;
