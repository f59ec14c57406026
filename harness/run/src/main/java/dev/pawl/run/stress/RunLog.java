package dev.pawl.run.stress;

import java.util.Map;

/** Where a campaign keeps what its runs came to, so that it can go on after it was ended. */
public interface RunLog {

  /** Nothing is kept. */
  RunLog NONE = new RunLog() {
    @Override
    public Map<Integer, RunResult> before(int number) {
      return Map.of();
    }

    @Override
    public void add(int run, RunResult result) {}
  };

  /** What is kept of runs with a number below this one, as far as it was not asked for yet. */
  Map<Integer, RunResult> before(int number);

  /** Keeps what a run came to; called by several threads. */
  void add(int run, RunResult result);
}
