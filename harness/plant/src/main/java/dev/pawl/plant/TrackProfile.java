package dev.pawl.plant;

import java.util.Arrays;

/** The height of a closed track along its length, straight between the points given. */
public final class TrackProfile {

  private final double length;
  private final double[] stations;
  private final double[] heights;

  /**
   * Takes the points of a track.
   *
   * @param length metres around the whole track
   * @param stations metres along the track, strictly rising, from 0, below {@code length}
   * @param heights metres, one per station; the track closes on the first
   * @throws IllegalArgumentException where the points do not describe such a track
   */
  public TrackProfile(double length, double[] stations, double[] heights) {
    if (stations.length < 2 || stations.length != heights.length || stations[0] != 0) {
      throw new IllegalArgumentException("a track needs two or more points, the first at 0 m, with a height for each");
    }
    this.length = length;
    this.stations = Arrays.copyOf(stations, stations.length + 1);
    this.heights = Arrays.copyOf(heights, heights.length + 1);
    this.stations[stations.length] = length;
    this.heights[heights.length] = heights[0];
    for (int i = 1; i < this.stations.length; i++) {
      if (!(this.stations[i] > this.stations[i - 1])) {
        throw new IllegalArgumentException("track points must rise along the track: " + this.stations[i]
            + " m does not");
      }
    }
  }

  public double length() {
    return length;
  }

  /** The place on the track, in [0, length), of a distance run since the start. */
  public double wrap(double distance) {
    if (distance >= 0 && distance < length) {
      return distance;
    }
    double place = distance - Math.floor(distance / length) * length;
    return place < length ? Math.max(0, place) : 0;
  }

  /** Height in metres at a distance in metres, which may count any number of laps. */
  public double height(double distance) {
    double place = wrap(distance);
    int found = Arrays.binarySearch(stations, place);
    if (found >= 0) {
      return heights[found];
    }
    int next = -found - 1;
    double share = (place - stations[next - 1]) / (stations[next] - stations[next - 1]);
    return heights[next - 1] + share * (heights[next] - heights[next - 1]);
  }

  /** Mean sine of the slope under a train: metres of rise per metre of track from tail to nose. */
  public double grade(double nose, double trainLength) {
    return (height(nose) - height(nose - trainLength)) / trainLength;
  }
}
