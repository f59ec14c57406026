package dev.pawl.run.control;

/** Hears how a replay to a bench goes, and can end it. */
public interface BenchListener {

  /** Hears nothing and lets the replay come to its end. */
  BenchListener NONE = new BenchListener() {};

  /** Nothing is sent yet: it listens whether anybody else publishes to the topics. */
  default void listens() {}

  /** Something takes long; these words say what is waited for. */
  default void waits(String words) {}

  /** The replay is over; these words say how well it kept its pace. */
  default void kept(String words) {}

  /** Whether the replay shall end; what came until then is judged. */
  default boolean isEndWanted() {
    return false;
  }
}
