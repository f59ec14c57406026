package dev.pawl.plant;

/**
 * A part of the track from one place to another, which may run on past the end of the lap.
 *
 * @param from metres along the track, at or above 0
 * @param to metres along the track, beyond {@code from}
 */
public record Stretch(double from, double to) {

  public Stretch {
    if (!(from >= 0 && to > from)) {
      throw new IllegalArgumentException("a stretch must run forward: from " + from + " m to " + to + " m does not");
    }
  }

  /** Share, from 0 to 1, of the piece [tail, nose] that lies in this stretch, on a track of the given length. */
  public double coverage(double tail, double nose, double trackLength) {
    double lap = Math.floor(tail / trackLength) * trackLength;
    return (overlap(tail - lap, nose - lap) + overlap(tail - lap + trackLength, nose - lap + trackLength)) / (nose
        - tail);
  }

  /** Whether a place, in metres within a lap, lies in this stretch. */
  public boolean contains(double place, double trackLength) {
    return place >= from && place < to || place + trackLength >= from && place + trackLength < to;
  }

  private double overlap(double tail, double nose) {
    return Math.max(0, Math.min(nose, to) - Math.max(tail, from));
  }
}
