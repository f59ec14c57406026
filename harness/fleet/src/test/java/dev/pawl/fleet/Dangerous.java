package dev.pawl.fleet;

import dev.pawl.fleet.work.Task;
import dev.pawl.fleet.work.Work;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.apache.flink.runtime.execution.SuppressRestartsException;

/**
 * Work of which some takes its worker down.
 *
 * @param memory a file that is there as soon as there would be memory enough
 * @param needsAll whether it cannot do without what any task comes to
 */
record Dangerous(String memory, boolean needsAll) implements Work {

  /** Words of tasks: one that is done, one that ends its process, and two that only need too much memory. */
  static final String FINE = "fine";
  static final String DEADLY = "deadly";
  static final String LARGE = "large";
  static final String LARGE_AT_FIRST = "large at first";

  @Override
  public Worker open() {
    return task -> {
      switch (task.words()) {
        case DEADLY -> Runtime.getRuntime().halt(1);
        case LARGE -> throw new OutOfMemoryError("no room");
        case LARGE_AT_FIRST -> {
          if (!Files.exists(Path.of(memory))) {
            Files.createFile(Path.of(memory));
            throw new OutOfMemoryError("no room yet");
          }
        }
        // Long enough to be at work while others end.
        default -> TimeUnit.MILLISECONDS.sleep(300);
      }
      return new Done("done", 1, false);
    };
  }

  @Override
  public Done givenUp(Task task) {
    if (needsAll) {
      throw new SuppressRestartsException(new IllegalStateException("task " + task.number() + ": " + task.givenUp()));
    }
    return new Done(task.givenUp(), 0, true);
  }
}
