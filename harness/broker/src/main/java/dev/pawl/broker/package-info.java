/**
 * The broker that comes with the harness, an artifact of its own: who only checks files does not need it. It knows no
 * other part of the harness; {@code mqtt} starts it.
 *
 * <p>Why HiveMQ Community Edition embedded 2025.5 and not Moquette 0.17: Moquette's jars are 7 MB and it starts in 0.25
 * s against 1.3 s, with 6 MB of heap against 13 MB, but version 0.17 answers an MQTT 5 client with "unsupported
 * protocol version"; HiveMQ passed user properties, expiry of retained messages, no-local and receive maximum (measured
 * with the probe that is now the broker test of {@code mqtt}). What HiveMQ needs only to store on disk or to encrypt is
 * left out: this broker does neither.
 */
package dev.pawl.broker;
