package dev.pawl.plant.loop;

import dev.pawl.plant.ride.Air;

/** Air that brakes use up, and a compressor that makes it good. */
final class AirSupply {

  private final Air air;
  private double pressure;
  private double since;
  private double used;
  private boolean fills;
  private boolean dead;
  private boolean lost;

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
    if (lost) {
      since = time;
    }
    while (since < time) {
      fills = pressure < air.low() || fills && pressure < air.high();
      double rate = (fills && !dead ? air.fills() : 0) - (used > 0 ? used : 0) - air.leaks();
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

  /** A fault: the compressor fills no more. */
  void starve(double time, boolean fault) {
    at(time);
    dead = fault;
  }

  /** A fault: the pressure is gone and does not come back until that is mended. */
  void lose(double time, boolean fault) {
    at(time);
    lost = fault;
    pressure = fault ? 0 : pressure;
  }

  boolean isEnough(double time) {
    return air.needed() == 0 || at(time) >= air.needed();
  }
}
