package dev.pawl.fleet.work;

import java.io.Serializable;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Who hands out tasks, in the process that coordinates the workers. It is asked on one thread. */
public interface Foreman extends AutoCloseable {

  /** Makes one. It travels to that process. */
  interface Plan extends Serializable {

    /**
     * Begins, or goes on after that process lost its workers.
     *
     * @param state what {@link Foreman#state} gave; empty at the beginning
     * @param more is to be run, on any thread, when there may be more tasks than when it was last asked
     */
    Foreman begin(Optional<byte[]> state, Runnable more);

    /** Whether the foreman wants to hear what tasks come to. */
    default boolean hears() {
      return false;
    }
  }

  /** The next task; empty where there is none, or none yet. */
  Optional<Task> next();

  /** Whether there will never be another. */
  boolean isDone();

  /** A task that was handed out and has to be done again. */
  void again(Task task);

  /** What a task came to, where the plan says that it is heard. */
  default void heard(int number, String words) {}

  /** What is needed to go on. */
  byte[] state();

  @Override
  default void close() {}

  /** Hands out tasks that are known from the beginning. */
  static Plan over(List<Task> tasks) {
    return new Known(List.copyOf(tasks));
  }

  /**
   * Such tasks.
   *
   * @param tasks in the order in which they are handed out
   */
  record Known(List<Task> tasks) implements Plan {

    @Override
    public Foreman begin(Optional<byte[]> state, Runnable more) {
      BitSet left = new BitSet();
      state.ifPresentOrElse(bits -> left.or(BitSet.valueOf(bits)), () -> left.set(0, tasks.size()));
      Map<Integer, Integer> places = new HashMap<>();
      tasks.forEach(task -> places.put(task.number(), places.size()));
      return new Foreman() {
        @Override
        public Optional<Task> next() {
          int next = left.nextSetBit(0);
          if (next < 0) {
            return Optional.empty();
          }
          left.clear(next);
          return Optional.of(tasks.get(next));
        }

        @Override
        public boolean isDone() {
          return left.isEmpty();
        }

        @Override
        public void again(Task task) {
          left.set(places.get(task.number()));
        }

        @Override
        public byte[] state() {
          return left.toByteArray();
        }
      };
    }
  }
}
