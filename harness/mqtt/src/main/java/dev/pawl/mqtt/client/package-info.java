/**
 * Connections to a broker. What may be sent is a matter of type: a {@link ListeningConnection} has no way to publish,
 * down to its socket, and a {@link PublishingConnection} asks a permit about every message. Callbacks of the library
 * never wait: they hand over to an {@link InboundQueue}. Uses the MQTT library, which stays inside this package.
 *
 * <p>What the library does wrong, or leaves to its user, and what is done about it here; code that guards against
 * anything else has no place:
 *
 * <ol>
 *   <li>It may not tell that a connection has ended, and a cable that breaks it does not notice. {@link Link} looks
 *       four times a second whether the client is connected, asks the broker for a sign of life, and gives up a
 *       connection by which none comes. Only a packet that came whole counts as one ({@link Pulse}).
 *   <li>A thread of its own that fails ends in silence, and the connection seems to stand. {@link Link} has all its
 *       threads in one group, and the failure of one is the end of the connection.
 *   <li>It does not bear being ended by two threads. Only the keeper thread of {@link Link} ends a client;
 *       {@link Ending} bears whatever it throws then, and does not wait for ever for the goodbye of a broker that has
 *       gone.
 *   <li>What it has in hand of a connection that has ended is delivered all the same, and what comes at once may be
 *       delivered before connecting has returned. {@link Link} lets nothing in after the end, and holds back what comes
 *       early.
 *   <li>A client that connects again keeps what it had. Each connection of {@link Link} is a new client.
 *   <li>Its locks are held while it calls back, so that a lock of ours can meet them the other way round.
 *       {@link PublishingConnection} calls it on one thread without a lock, and its callbacks take none.
 *   <li>It throws anything, not its own exception only, when it is used while a connection ends.
 *       {@link PublishingConnection} and {@link ListeningConnection} take that for a connection that is gone: what was
 *       to be sent is sent again, what came comes again.
 *   <li>It makes room for a packet of any length that is announced. {@link PacketStream} refuses one that is too large
 *       before that.
 *   <li>It publishes whatever it is asked to. {@link ReceiveOnlyStream} lets no message of a listener out.
 *   <li>It writes what fails to a log of its own. {@link Link} turns that off, and tells it in this project's words
 *       ({@link Reasons}).
 * </ol>
 */
package dev.pawl.mqtt.client;
