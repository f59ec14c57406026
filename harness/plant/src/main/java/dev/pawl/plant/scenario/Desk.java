package dev.pawl.plant.scenario;

import java.util.List;
import java.util.Map;

/**
 * What people do by themselves, and can do.
 *
 * @param rests values of inputs while nobody touches them, by signal
 * @param acts by name
 */
public record Desk(Map<Integer, Double> rests, List<Habit> habits, Map<String, Act> acts) {

  /** A signal has a value while a condition has been so for long enough. */
  public record Habit(int signal, double value, Condition condition) {}
}
