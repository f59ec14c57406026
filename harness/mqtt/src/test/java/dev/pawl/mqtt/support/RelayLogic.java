package dev.pawl.mqtt.support;

import dev.pawl.engine.EventSink;
import java.util.Arrays;

/**
 * A stand-in for a controller, scanned every 10 ms: the lift runs while a train is near and the e-stop chain is
 * healthy. Passes inputs on, as the harness of real logic does.
 */
public final class RelayLogic implements EventSink {

  private static final long PERIOD = 10 * Ride.MS;

  private final EventSink out;
  private final long stopDelay;
  private final int near = Ride.signal("near_flag");
  private final int chain = Ride.signal("estop_chain");
  private final int[] outputs = {Ride.signal("lift_mode"), Ride.signal("lift_run"), Ride.signal("lift_speed")};
  private final long[] told = new long[outputs.length];
  private long nearValue;
  private long chainValue;
  private long chainFell = Long.MIN_VALUE / 2;
  private long nextScan = Long.MIN_VALUE;

  /**
   * The controller.
   *
   * @param stopDelay nanoseconds that it goes on after the chain has fallen: its mistake, if it is long
   */
  public RelayLogic(EventSink out, long stopDelay) {
    this.out = out;
    this.stopDelay = stopDelay;
    Arrays.fill(told, Long.MAX_VALUE);
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (nextScan == Long.MIN_VALUE) {
      nextScan = time;
    }
    scanBefore(time);
    if (signal == near) {
      nearValue = value;
    } else if (signal == chain) {
      chainFell = chainValue == 1 && value == 0 ? time : chainFell;
      chainValue = value;
    }
    out.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    if (nextScan != Long.MIN_VALUE) {
      scanBefore(time);
    }
    out.advanceTo(time);
  }

  private void scanBefore(long time) {
    for (; nextScan < time; nextScan += PERIOD) {
      boolean healthy = chainValue == 1 || nextScan < chainFell + stopDelay;
      boolean run = nearValue == 1 && healthy;
      tell(0, chainValue);
      tell(1, run ? 1 : 0);
      tell(2, Double.doubleToRawLongBits(run ? 2.5 : 0.0));
    }
  }

  private void tell(int place, long value) {
    if (told[place] != value) {
      told[place] = value;
      out.event(nextScan, outputs[place], value, 0);
    }
  }
}
