package dev.pawl.fleet.work;

import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
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

  /**
   * Hands out tasks that are known from the beginning. They are put into a file of the job's folder, so that only who
   * hands them out reads them, one at a time, and not each worker all.
   *
   * @param tasks in the order in which they are handed out, which is that of their numbers
   */
  static Plan over(Path folder, Iterable<Task> tasks) throws IOException {
    Path file = Files.createDirectories(folder).resolve("tasks");
    KnownTasks.write(file, tasks);
    return new Known(file.toString());
  }

  /** Such tasks, in a file. */
  record Known(String file) implements Plan {

    @Override
    public Foreman begin(Optional<byte[]> state, Runnable more) {
      try {
        return new KnownTasks(Path.of(file), state);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
