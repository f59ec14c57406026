package dev.pawl.plant.scenario;

/**
 * Signals that all have their values for a while.
 *
 * @param lasts seconds for which it has to be so
 */
public record Condition(int[] signals, double[] values, double lasts) {

  /** Whether all signals have their values. */
  public boolean holds(double[] image) {
    for (int i = 0; i < signals.length; i++) {
      if (image[signals[i]] != values[i]) {
        return false;
      }
    }
    return true;
  }
}
