package dev.pawl.plant.scenario;

import java.util.List;
import java.util.Map;

/**
 * What people do by themselves, and can do, and what has to protect them.
 *
 * @param rests values of inputs while nobody touches them, by signal
 * @param acts by name
 */
public record Desk(Map<Integer, Double> rests, List<Habit> habits, Map<String, Act> acts, List<Stop> stops,
    List<Boarding> boardings) {

  /** A signal has a value while a condition has been so for long enough. */
  public record Habit(int signal, double value, Condition condition) {}

  /**
   * A stop: from when it is demanded, it stands until it is released, which nothing can do while it is demanded.
   *
   * @param within seconds in which all has to come to rest
   */
  public record Stop(Condition demanded, Condition released, double within) {}

  /**
   * A stretch of the circuit where people get on and off.
   *
   * @param shut when they are safe from a train that moves there
   */
  public record Boarding(double from, double to, Condition shut) {}
}
