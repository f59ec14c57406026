package dev.pawl.mqtt.feed;

/** The time of the merged stream: where arrivals lie on it, and how far it is settled. All in nanoseconds. */
public interface Timeline {

  /** The stream's time of a moment of the harness's clock, such as that at which something arrived. */
  long ofArrival(long arrival);

  /** The stream's time of a value that states none. */
  default long ofUntimed(long arrival) {
    return ofArrival(arrival);
  }

  /**
   * The stream's time of something that bears the stamp of a harness's bench side, which states the time of the trace
   * that is played.
   */
  long ofStamp(long stamped, long arrival);

  /**
   * A stream time before which nothing more is expected.
   *
   * @param settled harness time up to which all that arrived has been taken
   */
  long horizon(long settled);
}
