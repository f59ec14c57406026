package dev.pawl.mqtt.time;

/** The clock that all arrivals are timed by. */
public interface HarnessClock {

  /** Nanoseconds since 1970, never less than before, not touched by changes of the machine's clock once started. */
  long now();

  /** The machine's clock at the time of the call, carried on by its monotonic timer. */
  static HarnessClock started() {
    long epoch = Math.multiplyExact(System.currentTimeMillis(), 1_000_000L);
    long origin = System.nanoTime();
    return () -> epoch + (System.nanoTime() - origin);
  }
}
