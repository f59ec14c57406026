package dev.pawl.plant.motion;

/** A number that goes to its target at an even rate. */
final class Ramp {

  /** Times closer than this are one time, seconds. */
  private static final double NEAR = 1e-9;

  private double value;
  private double rate;
  private double end;

  Ramp(double value) {
    this.value = value;
    this.end = Double.NEGATIVE_INFINITY;
  }

  /** Sends it to a target; a rate that is infinite takes it there at once. */
  void go(double time, double target, double perSecond) {
    double from = at(time);
    if (from == target || Double.isInfinite(perSecond)) {
      value = target;
      rate = 0;
      end = time;
    } else {
      value = target;
      rate = Math.signum(target - from) * perSecond;
      end = time + Math.abs(target - from) / perSecond;
    }
  }

  double at(double time) {
    return time >= end - NEAR ? value : value - rate * (end - time);
  }

  double rateAt(double time) {
    return time >= end - NEAR ? 0 : rate;
  }

  /** Where it is going. */
  double target() {
    return value;
  }

  /** When it arrives, if that is still to come; else infinite. */
  double nextChange(double time) {
    return end - NEAR > time ? end : Double.POSITIVE_INFINITY;
  }
}
