/**
 * Connections to a broker. What may be sent is a matter of type: a {@link ListeningConnection} has no way to publish,
 * down to its socket, and a {@link PublishingConnection} asks a permit about every message. Callbacks of the library
 * never wait: they hand over to an {@link InboundQueue}. Uses the MQTT library, which stays inside this package.
 *
 * <p>What the library does wrong, or leaves to its user, what is done about it here, and the test that fails where
 * that is taken out; code that guards against anything else has no place:
 *
 * <ol>
 *   <li>It does not notice a cable that breaks. {@link Link} asks the broker for a sign of life four times a second,
 *       and gives up a connection by which none comes ({@code DeafTest}). Only a packet
 *       that came whole counts as one ({@link Pulse}; {@code DeafTest}). At the same time it looks whether the client
 *       is connected, since the library may not tell of an end; what is deaf would be found anyway, only later (no
 *       test).
 *   <li>A thread of its own that fails ends in silence, and the connection seems to stand. {@link Link} has all its
 *       threads in one group, and the failure of one is the end of the connection ({@code CrewTest}).
 *   <li>It gives a reason of its own for what fails while a message is handed over. {@link Link} takes that first
 *       ({@code CrewTest}).
 *   <li>What comes at once may be delivered before connecting has returned. {@link Link} holds it back
 *       ({@code ArrivalTest}).
 *   <li>A client that connects again keeps what it had. Each connection of {@link Link} is a new client.
 *   <li>It makes room for a packet of any length that is announced. {@link PacketStream} refuses one that is too
 *       large before that ({@code DeafTest}).
 *   <li>It publishes whatever it is asked to. {@link ReceiveOnlyStream} lets no message of a listener out
 *       ({@code ReceiveOnlyTest}).
 *   <li>It writes what fails to a log of its own. {@link Link} turns that off, and {@link Reasons} tells it in this
 *       project's words ({@code WrongPortTest} for the words).
 * </ol>
 *
 * <p>The rest concerns races in the moment in which a connection ends. No test brings them about at will, and each
 * guard is a line or two:
 *
 * <ol>
 *   <li>It does not bear being ended by two threads. Only the keeper thread of {@link Link} ends a client;
 *       {@link Ending} bears whatever it throws then, and waits a second at most for a goodbye.
 *   <li>It may deliver what it has in hand of a connection that has ended. {@link Link} lets nothing in after that.
 *   <li>Its locks are held while it calls back, so that a lock of ours can meet them the other way round.
 *       {@link PublishingConnection} calls it on one thread without a lock, and its callbacks take none.
 *   <li>It throws anything, not its own exception only, when it is used while a connection ends.
 *       {@link PublishingConnection} and {@link ListeningConnection} take that for a connection that is gone: what
 *       was to be sent is sent again, what came comes again.
 * </ol>
 */
package dev.pawl.mqtt.client;
