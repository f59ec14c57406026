package dev.pawl.mqtt.feed;

/** The time of a live feed: that of this machine's clock, on which {@link SenderClocks} place what senders state. */
public final class SenderTimeline implements Timeline {

  private final long window;

  /**
   * A timeline of this machine's clock.
   *
   * @param window nanoseconds to wait for what may still come out of order; 0 where nothing states its time
   */
  public SenderTimeline(long window) {
    this.window = window;
  }

  @Override
  public long ofArrival(long arrival) {
    return arrival;
  }

  /** A played trace's own time means nothing to a live feed. */
  @Override
  public long ofStamp(long stamped, long arrival) {
    return arrival;
  }

  @Override
  public long horizon(long settled) {
    return settled - window;
  }
}
