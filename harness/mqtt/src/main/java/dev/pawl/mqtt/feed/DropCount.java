package dev.pawl.mqtt.feed;

import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.evidence.Anomaly;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;

/**
 * Follows how many messages the broker has dropped.
 *
 * <p>The embedded one can be asked at any time. What was on the way before the gap would still come after the count has
 * risen, and nothing would show where it ends; so the connection is made anew, which is a gap with a known place.
 *
 * <p>A foreign broker may tell by itself, for all its clients together, which is a doubt to state and no more. What it
 * tells may be dropped as well, so it is asked again now and then.
 */
final class DropCount {

  private static final String A_NUMBER = "[0-9]{1,18}";
  private static final long ASK_EVERY = TimeUnit.SECONDS.toNanos(10);
  private static final long NOTHING_TOLD = -1;

  private final Merger merger;
  private LongSupplier embedded = () -> 0;
  private ListeningConnection connection;
  private long seen;
  private boolean renewing;
  private long told = NOTHING_TOLD;
  private long timesTold;
  private long nextAsking;

  DropCount(Merger merger) {
    this.merger = merger;
  }

  void follow(LongSupplier embeddedBroker, ListeningConnection listening) {
    embedded = embeddedBroker;
    connection = listening;
    seen = embeddedBroker.getAsLong();
  }

  /**
   * Looks.
   *
   * @param settled harness time up to which all that arrived has been taken
   */
  void look(long settled) {
    long now = embedded.getAsLong();
    if (now > seen) {
      merger.evidence().noteForAll(Anomaly.BROKER_DROPPED, now - seen, merger.timeline().ofArrival(settled),
          "by the embedded broker's count");
      seen = now;
      renew();
    }
    if (told != NOTHING_TOLD && settled >= nextAsking) {
      nextAsking = settled + ASK_EVERY;
      connection.askForDrops();
    }
  }

  private void renew() {
    if (!renewing) {
      renewing = true;
      connection.renew();
    }
  }

  /** A connection is up: what the broker drops from now on may have been meant for it. */
  void connected() {
    renewing = false;
  }

  /**
   * The broker told its count. The first one kept is from before this feed; a lower one is that of a broker started
   * anew.
   */
  void told(Inbound.Message message) {
    String text = new String(message.payload(), StandardCharsets.US_ASCII).strip();
    if (!text.matches(A_NUMBER)) {
      return;
    }
    timesTold++;
    long now = Long.parseLong(text);
    long before = told == NOTHING_TOLD ? message.retained() ? now : 0 : told;
    if (now > before) {
      merger.evidence().note(Anomaly.DROPS_TOLD, now - before, merger.timeline().ofArrival(message.arrival()), -1,
          "on " + message.topic());
    }
    told = now;
  }

  /** How often a broker told its count; 0 where it never does. */
  long timesTold() {
    return timesTold;
  }
}
