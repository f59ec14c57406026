package dev.pawl.run.stress;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.Future;

/** Threads of this process; what was kept of an earlier time is taken over. */
record OwnTeam(Crew crew, Maker maker, RunLog<RunResult> log) implements Team {

  @Override
  public RunResult faultless() {
    return maker.faultless();
  }

  @Override
  public List<Future<RunResult>> run(int first, List<Trial> trials) {
    return crew.work(first, first + trials.size(), log, number -> () -> maker.run(trials.get(number - first)));
  }

  @Override
  public Future<Optional<Smallest.Small>> small(Shown shown) {
    return crew.submit(() -> maker.small(shown));
  }
}
