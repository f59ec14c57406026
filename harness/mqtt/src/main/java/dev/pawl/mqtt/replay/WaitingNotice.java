package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.time.HarnessClock;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.Supplier;

/** Says soon that something is waited for, and again where that has changed, or now and then where it has not. */
final class WaitingNotice {

  private static final long SOON = TimeUnit.SECONDS.toNanos(2);
  private static final long NOW_AND_THEN = TimeUnit.SECONDS.toNanos(10);

  private final Consumer<String> told;
  private final HarnessClock clock;
  private long since;
  private long lastTold;
  private String last = "";

  WaitingNotice(Consumer<String> told, HarnessClock clock) {
    this.told = told;
    this.clock = clock;
  }

  /** Waiting begins. */
  void begin() {
    since = clock.now();
    lastTold = since;
    last = "";
  }

  /** Says what is still waited for, if that is due. */
  void stillFor(Supplier<String> what) {
    long now = clock.now();
    if (now - lastTold < SOON) {
      return;
    }
    String words = what.get();
    if (!words.equals(last) || now - lastTold >= NOW_AND_THEN) {
      told.accept("waiting for " + TimeUnit.NANOSECONDS.toSeconds(now - since) + " s: " + words);
      last = words;
      lastTold = now;
    }
  }
}
