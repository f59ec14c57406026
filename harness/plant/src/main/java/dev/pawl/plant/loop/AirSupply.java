package dev.pawl.plant.loop;

import dev.pawl.plant.ride.Air;

/** Air that brakes use up, and a compressor that makes it good. */
final class AirSupply {

  private final Air air;
  private double pressure;
  private double since;
  private double used;
  private boolean fills;

  AirSupply(Air air) {
    this.air = air;
    this.pressure = air.starts();
  }

  /** From now on open brakes take so much each second. */
  void use(double time, double rate) {
    at(time);
    used = rate;
  }

  double at(double time) {
    while (since < time) {
      fills = pressure < air.low() || fills && pressure < air.high();
      double rate = (fills ? air.fills() : 0) - (used > 0 ? used : 0) - air.leaks();
      double goal = fills ? air.high() : air.low();
      double turn = rate != 0 && (goal - pressure) / rate > 1e-9 ? (goal - pressure) / rate : Double.POSITIVE_INFINITY;
      double step = Math.min(time - since, turn);
      pressure = Math.max(0, pressure + rate * step);
      since = step == turn ? since + step : time;
      if (step == turn) {
        fills = !fills;
      }
    }
    return pressure;
  }

  boolean isEnough(double time) {
    return air.needed() == 0 || at(time) >= air.needed();
  }
}
