package dev.pawl.bench.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;

/** A program that is run several times, and what its runs took. */
final class Contestant {

  private final String name;
  private final long rows;
  private final List<String> command;
  private final Set<Integer> good;
  private final List<Measured> runs = new ArrayList<>();

  /**
   * A program.
   *
   * @param rows how many rows one run goes through
   * @param good the exit statuses that are no failure
   */
  Contestant(String name, long rows, List<String> command, Set<Integer> good) {
    this.name = name;
    this.rows = rows;
    this.command = List.copyOf(command);
    this.good = good;
  }

  String name() {
    return name;
  }

  /** Runs it once more. */
  Measured run(Path errors) throws IOException {
    Measured run = Measured.run(command, errors);
    if (!good.contains(run.status())) {
      throw new IOException(name + " ended with status " + run.status() + "; what it said is in " + errors);
    }
    runs.add(run);
    return run;
  }

  /** The shortest run. */
  double best() {
    return runs.stream().mapToDouble(Measured::seconds).min().orElse(Double.NaN);
  }

  /** The longest run. */
  double worst() {
    return runs.stream().mapToDouble(Measured::seconds).max().orElse(Double.NaN);
  }

  /** Processor time of the shortest run. */
  double processor() {
    return runs.stream().min(Comparator.comparingDouble(Measured::seconds)).map(Measured::processor).orElse(Double.NaN);
  }

  /** Rows per second of the shortest run. */
  double rate() {
    return rows / best();
  }

  long peakKilobytes() {
    return runs.stream().mapToLong(Measured::peakKilobytes).max().orElse(0);
  }

  String lastOutput() {
    return runs.get(runs.size() - 1).output();
  }
}
