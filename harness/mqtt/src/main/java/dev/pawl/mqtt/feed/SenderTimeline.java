package dev.pawl.mqtt.feed;

import dev.pawl.mqtt.time.ClockOffset;

/**
 * The time of a live feed: that of the senders' clock. A stated time is taken as stated, so that durations between stated times are the
 * sender's own; an arrival is mapped onto that clock by the estimated offset. If a sender's clock jumps, its times are shifted so that
 * the stream goes on, and the jump is told.
 */
public final class SenderTimeline implements Timeline {

  private final long window;
  private final ClockOffset offset;
  private final Runnable onJump;
  private long shift;
  private long jumps;
  private long lastJump;

  /**
   * A timeline of the senders' clock.
   *
   * @param window nanoseconds to wait for what may still come out of order; 0 where nothing states its time
   * @param jump nanoseconds by which a clock must depart from its estimate to have jumped
   * @param onJump told of each jump before the value that showed it is placed
   */
  public SenderTimeline(long window, long jump, Runnable onJump) {
    this.window = window;
    this.offset = new ClockOffset(jump);
    this.onJump = onJump;
  }

  @Override
  public long ofArrival(long arrival) {
    return arrival - offset.nanoseconds();
  }

  /** A played trace's own time means nothing to a live feed. */
  @Override
  public long ofStamp(long stamped, long arrival) {
    return ofArrival(arrival);
  }

  @Override
  public long ofStated(long stated, long arrival) {
    if (offset.isJump(stated + shift, arrival)) {
      lastJump = offset.nanoseconds() - (arrival - stated - shift);
      shift -= lastJump;
      jumps++;
      onJump.run();
    }
    offset.sample(stated + shift, arrival);
    return stated + shift;
  }

  @Override
  public long horizon(long settled) {
    return ofArrival(settled) - window;
  }

  /** The estimated offset of the harness's clock against the senders'. */
  public ClockOffset offset() {
    return offset;
  }

  public long jumps() {
    return jumps;
  }

  /** By how much the clock went forward at its last jump, in nanoseconds. */
  public long lastJump() {
    return lastJump;
  }
}
