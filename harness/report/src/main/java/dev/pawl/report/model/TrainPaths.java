package dev.pawl.report.model;

import java.util.List;

/**
 * Where the trains of a modelled ride truly were on its circuit.
 *
 * @param length metres of the circuit
 * @param zones of the rules that lie along it
 * @param paths a train may have several, when it was off the circuit in between
 * @param done what people did and what failed, in order of time
 */
public record TrainPaths(double length, List<Zone> zones, List<Path> paths, List<Done> done) {

  public TrainPaths {
    zones = List.copyOf(zones);
    paths = List.copyOf(paths);
    done = List.copyOf(done);
  }

  /** A part of the circuit, in metres; one that runs over the end of the lap counts on. */
  public record Zone(String name, double from, double to) {}

  /** One train on the circuit; its nose goes straight from point to point. */
  public record Path(String train, List<Point> points) {}

  /** Nanoseconds, and metres counting laps. */
  public record Point(long time, double place) {}

  /**
   * Something done or failed.
   *
   * @param fault whether something failed; else it was people who did it
   */
  public record Done(long time, String words, boolean fault) {}
}
