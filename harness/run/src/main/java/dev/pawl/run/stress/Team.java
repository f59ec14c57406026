package dev.pawl.run.stress;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.Future;

/** Who makes the runs of a campaign. What they come to depends on the runs alone. */
public interface Team {

  /** What the run without a fault comes to. */
  RunResult faultless();

  /**
   * Makes runs of which none rests on another.
   *
   * @param first the number of the first; the others follow
   */
  List<Future<RunResult>> run(int first, List<Trial> trials);

  /** Makes a run as small as it gets; empty where it shows nothing of the kind. */
  Future<Optional<Smallest.Small>> small(Shown shown);
}
