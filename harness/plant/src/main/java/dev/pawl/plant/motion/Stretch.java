package dev.pawl.plant.motion;

/**
 * A part of a track.
 *
 * @param track 0 for the main circuit, or the number of a siding
 * @param from metres along it; along a siding, from its switch
 * @param to beyond {@code from}; on the circuit it may run on past the end of the lap
 */
public record Stretch(int track, double from, double to) {

  public double length() {
    return to - from;
  }
}
