package dev.pawl.run.stress;

import java.util.Map;

/**
 * Where it is kept what runs came to, so that their making can go on after it was ended.
 *
 * @param <T> what is kept of each
 */
public interface RunLog<T> {

  /** Nothing is kept. */
  static <T> RunLog<T> none() {
    return new RunLog<>() {
      @Override
      public Map<Integer, T> before(int number) {
        return Map.of();
      }

      @Override
      public void add(int run, T result) {}
    };
  }

  /** What is kept of runs with a number below this one, as far as it was not asked for yet. */
  Map<Integer, T> before(int number);

  /** Keeps what a run came to; called by several threads. */
  void add(int run, T result);
}
